#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::drawn_map {

struct Cell {
    std::string text;  ///< Without quotes around it.
    std::size_t offset = 0;
};

using TableRow = std::vector<Cell>;

/// Reads a table as text, row by row: CSV (RFC 4180) with any separator.
class TableReader {
public:
    /// The separator is the one that stands most often in the first line outside of quotes: semicolon, tab, comma or
    /// bar; a line "sep=;" before it says which.
    explicit TableReader(std::string_view text);

    [[nodiscard]] char separator() const { return separator_; }
    /// The next row that is not empty; nothing behind the last.
    std::optional<TableRow> next();
    /// Offset of a quote that nothing closes, once its row was read; npos where there is none.
    [[nodiscard]] std::size_t unclosed_quote() const { return unclosed_quote_; }

private:
    [[nodiscard]] std::string_view first_line() const;
    TableRow read_row();
    Cell read_cell();
    void read_quoted(Cell& cell);

    std::string_view text_;
    std::size_t at_ = 0;
    char separator_ = ',';
    std::size_t unclosed_quote_ = std::string_view::npos;
};

}  // namespace spadework::drawn_map
