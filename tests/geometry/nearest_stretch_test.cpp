#include "geometry/nearest_stretch.hpp"

#include <doctest/doctest.h>

using spadework::sides_of;
using spadework::StretchSearch;

namespace {

const StretchSearch& ladder() {
    static const StretchSearch search({{{0, 0}, {10, 0}}, {{0, 5}, {10, 5}}, {{0, 9}, {10, 9}}});
    return search;
}

}  // namespace

TEST_CASE("the nearest stretch to a point is found with its foot") {
    const auto found = ladder().nearest(sides_of({{{3, 6}}}));
    REQUIRE(found);
    CHECK(found->stretch == 1);
    CHECK(found->nearest.metres == doctest::Approx(1));
    CHECK(found->nearest.on_first == spadework::Position{3, 5});
    CHECK(found->nearest.share == doctest::Approx(0.3));
}

TEST_CASE("equal distances go to the lower stretch") {
    const auto found = ladder().nearest(sides_of({{{3, 7}}}));
    REQUIRE(found);
    CHECK(found->stretch == 1);
}

TEST_CASE("stretches that may not be used are passed over") {
    const auto found = ladder().nearest(sides_of({{{3, 6}}}), [](std::size_t stretch) { return stretch != 1; });
    REQUIRE(found);
    CHECK(found->stretch == 2);
    CHECK_FALSE(ladder().nearest(sides_of({{{3, 6}}}), [](std::size_t) { return false; }));
}

TEST_CASE("no stretches, or an outline without a side, find nothing") {
    CHECK_FALSE(StretchSearch({}).nearest(sides_of({{{3, 6}}})));
    CHECK_FALSE(ladder().nearest({}));
}
