#include "geometry/ring_checks.hpp"

#include <doctest/doctest.h>

using namespace spadework;

namespace {

const std::vector<Position> square = {{0, 0}, {10, 0}, {10, 10}, {0, 10}};

std::vector<Position> box(double left, double low, double right, double high) {
    return {{left, low}, {right, low}, {right, high}, {left, high}};
}

}  // namespace

TEST_CASE("a square and a triangle have no fault, whichever way round they run") {
    CHECK_FALSE(fault_of_ring(square));
    CHECK_FALSE(fault_of_ring({square.rbegin(), square.rend()}));
    CHECK_FALSE(fault_of_ring({{0, 0}, {4, 0}, {0, 3}}));
}

TEST_CASE("a corner on a straight side is no fault") {
    CHECK_FALSE(fault_of_ring({{0, 0}, {5, 0}, {10, 0}, {10, 10}, {0, 10}}));
}

TEST_CASE("a bow tie crosses itself in its middle") {
    const auto fault = fault_of_ring({{0, 0}, {10, 10}, {10, 0}, {0, 10}});
    REQUIRE(fault);
    CHECK(fault->first == 0);
    CHECK(fault->second == 2);
    CHECK(fault->at.x == doctest::Approx(5));
    CHECK(fault->at.y == doctest::Approx(5));
}

TEST_CASE("a ring that touches itself in one point has a fault there") {
    const auto fault = fault_of_ring({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}});
    REQUIRE(fault);
    CHECK(fault->at == Position{5, 0});
}

TEST_CASE("a spike folds back over its own side") {
    CHECK(fault_of_ring({{0, 0}, {10, 0}, {20, 0}, {10, 0.0000001}, {0, 10}}));
    CHECK(fault_of_ring({{0, 0}, {10, 0}, {6, 0}, {0, 10}}));
}

TEST_CASE("a ring lies within another when it is inside, also when it touches the border") {
    CHECK(ring_within(box(2, 2, 8, 8), square));
    CHECK(ring_within(box(0, 2, 8, 8), square));
    CHECK_FALSE(ring_within(box(8, 8, 12, 9), square));
    CHECK_FALSE(ring_within(box(11, 11, 12, 12), square));
    CHECK_FALSE(ring_within(square, box(2, 2, 8, 8)));
}

TEST_CASE("rings are apart when no point is inside both") {
    CHECK(rings_apart(box(0, 0, 4, 4), box(5, 0, 9, 4)));
    CHECK(rings_apart(box(0, 0, 4, 4), box(4, 1, 9, 3)));
    CHECK_FALSE(rings_apart(box(0, 0, 4, 4), box(3, 3, 9, 9)));
    CHECK_FALSE(rings_apart(square, box(2, 2, 3, 3)));
    CHECK_FALSE(rings_apart(box(2, 2, 3, 3), square));
}
