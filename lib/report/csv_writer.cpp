#include "report/csv_writer.hpp"

#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

std::string without_controls(const std::string& text) {
    std::string result;
    for (const char c : text) {
        const auto code = static_cast<unsigned char>(c);
        const bool keeps = (code >= 0x20 && code != 0x7F) || c == '\t' || c == '\r' || c == '\n';
        result += keeps ? std::string(1, c) : shown(std::string_view(&c, 1));
    }
    return result;
}

}  // namespace

CsvWriter::CsvWriter(const std::vector<std::string>& headings) {
    for (const std::string& heading : headings)
        text(heading);
    end_row();
}

CsvWriter& CsvWriter::text(std::string_view value) {
    constexpr std::string_view formula_starts = "=+-@\t\r\n";
    const bool formula = !value.empty() && formula_starts.find(value.front()) != std::string_view::npos;
    cell((formula ? "'" : "") + without_controls(valid_utf8(value)));
    return *this;
}

CsvWriter& CsvWriter::number(std::string_view digits) {
    cell(digits);
    return *this;
}

void CsvWriter::end_row() {
    table_ += "\r\n";
    row_begun_ = false;
}

void CsvWriter::cell(std::string_view value) {
    if (row_begun_) table_ += ',';
    row_begun_ = true;
    if (value.find_first_of(",\"\r\n") == std::string_view::npos) {
        table_ += value;
        return;
    }
    table_ += '"';
    for (const char c : value) {
        if (c == '"') table_ += '"';
        table_ += c;
    }
    table_ += '"';
}

}  // namespace spadework::report
