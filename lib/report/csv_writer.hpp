#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::report {

/// Builds a table as comma-separated values (RFC 4180): a line of headings, CRLF at every line's end, quotes where a
/// cell holds a comma, a quote or a line break. Text is written as valid UTF-8. A text that a spreadsheet would take
/// for a formula (it begins with = + - @, a tab or a line break) gets an apostrophe in front; numbers never do.
class CsvWriter {
public:
    explicit CsvWriter(const std::vector<std::string>& headings);

    CsvWriter& text(std::string_view value);
    /// A number already in decimal digits.
    CsvWriter& number(std::string_view digits);
    CsvWriter& whole(std::int64_t value) { return number(std::to_string(value)); }
    void end_row();

    [[nodiscard]] const std::string& table() const { return table_; }

private:
    void cell(std::string_view value);

    std::string table_;
    bool row_begun_ = false;
};

}  // namespace spadework::report
