#include "strand_map/openings.hpp"

#include <doctest/doctest.h>

namespace spadework {

TEST_CASE("openings are counted through all pieces of a row, and back") {
    const Row row{{12, 12, 24}, false};
    CHECK(opening_at(row, 1) == Opening{1, 1});
    CHECK(opening_at(row, 12) == Opening{1, 12});
    CHECK(opening_at(row, 13) == Opening{2, 1});
    CHECK(opening_at(row, 48) == Opening{3, 24});
    CHECK(opening_at(row, 49) == Opening{3, 25});
    for (int number = 1; number <= 49; ++number)
        CHECK(number_of(row, opening_at(row, number)) == number);
}

TEST_CASE("gear that was there before is piece 0") {
    const Row row{{2, 8}, true};
    CHECK(opening_at(row, 2) == Opening{0, 2});
    CHECK(opening_at(row, 3) == Opening{1, 1});
    CHECK(number_of(row, {1, 1}) == 3);
}

TEST_CASE("the lowest free number is given out, numbers spoken for are not") {
    Numbers numbers;
    CHECK(numbers.take(2));
    CHECK_FALSE(numbers.take(2));
    CHECK_FALSE(numbers.take(0));
    CHECK(numbers.take_lowest() == 1);
    CHECK(numbers.take_lowest() == 3);
}

}  // namespace spadework
