#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::drawn_map {

struct Cell {
    std::string text;  ///< Without quotes around it.
    std::size_t offset = 0;
};

/// A table as text: CSV (RFC 4180) with any separator.
struct Table {
    char separator = ',';
    std::vector<std::vector<Cell>> rows;  ///< Without empty lines. The first is the header.
    std::size_t unclosed_quote =
        std::string_view::npos;  ///< Offset of a quote that nothing closes; npos where none is.
};

/// Reads a table. The separator is the one that stands most often in the first line outside of quotes: semicolon, tab,
/// comma or bar; a line "sep=;" before it says which.
Table read_table(std::string_view text);

}  // namespace spadework::drawn_map
