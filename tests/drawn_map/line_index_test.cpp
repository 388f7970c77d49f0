#include "drawn_map/line_index.hpp"

#include <doctest/doctest.h>

using namespace spadework::drawn_map;

TEST_CASE("each byte of a text has a line and a column") {
    const LineIndex lines("ab\n\nc");
    const auto is_at = [&](std::size_t offset, int line, int column) {
        const LineColumn at = lines.at(offset);
        return at.line == line && at.column == column;
    };
    CHECK(is_at(0, 1, 1));
    CHECK(is_at(2, 1, 3));
    CHECK(is_at(3, 2, 1));
    CHECK(is_at(4, 3, 1));
    CHECK(is_at(5, 3, 2));
    CHECK(is_at(99, 3, 2));
    CHECK(LineIndex("").at(0).line == 1);
}
