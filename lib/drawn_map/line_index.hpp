#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace spadework::drawn_map {

/// Line and column in a text, both from 1; a column is a byte.
struct LineColumn {
    int line = 1;
    int column = 1;
};

/// Tells the line and column of any byte of a text of less than 4 GiB.
class LineIndex {
public:
    explicit LineIndex(std::string_view text);

    /// An offset behind the end of the text counts as its end.
    [[nodiscard]] LineColumn at(std::size_t offset) const;

private:
    std::vector<std::uint32_t> line_starts_;
    std::size_t size_;
};

}  // namespace spadework::drawn_map
