#include "geometry/plane_geometry.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include <doctest/doctest.h>

using namespace spadework;
using namespace spadework;

namespace {

double metres(const Position& a, const Position& b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

Position along(const Stretch& s, double share) {
    return {s.from.x + share * (s.to.x - s.from.x), s.from.y + share * (s.to.y - s.from.y)};
}

}  // namespace

TEST_CASE("the nearest points of two stretches") {
    const Nearest side_by_side = nearest_points({{0, 0}, {10, 0}}, {{4, 3}, {4, 8}});
    CHECK(side_by_side.metres == 3);
    CHECK(side_by_side.share == doctest::Approx(0.4));
    CHECK(side_by_side.on_second == Position{4, 3});
    const Nearest crossing = nearest_points({{0, 0}, {10, 0}}, {{5, -5}, {5, 5}});
    CHECK(crossing.metres == 0);
    CHECK(crossing.share == doctest::Approx(0.5));
    const Nearest beyond = nearest_points({{0, 0}, {10, 0}}, {{13, 4}, {20, 4}});
    CHECK(beyond.metres == 5);
    CHECK(beyond.share == 1);
    const Nearest points = nearest_points({{0, 0}, {0, 0}}, {{3, 4}, {3, 4}});
    CHECK(points.metres == 5);
}

TEST_CASE("no pair of points of two stretches is nearer than the nearest") {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> coordinate(-10, 10);
    const auto point = [&] { return Position{coordinate(random), coordinate(random)}; };
    for (int round = 0; round < 300; ++round) {
        const Stretch a{point(), point()};
        const Stretch b{point(), point()};
        const Nearest nearest = nearest_points(a, b);
        double sampled = 1e9;
        for (int i = 0; i <= 50; ++i) {
            for (int j = 0; j <= 50; ++j)
                sampled = std::min(sampled, metres(along(a, i / 50.0), along(b, j / 50.0)));
        }
        CHECK(nearest.metres <= sampled + 1e-9);
        CHECK(nearest.metres >= sampled - 1.2);
        CHECK(metres(nearest.on_first, nearest.on_second) == doctest::Approx(nearest.metres));
        CHECK(metres(nearest.on_first, along(a, nearest.share)) < 1e-9);
        CHECK(nearest_points(b, a).metres == doctest::Approx(nearest.metres));
    }
}

TEST_CASE("a ring holds the points inside it") {
    const std::vector<Position> notch = {{0, 0}, {10, 0}, {10, 10}, {5, 5}, {0, 10}};
    CHECK(ring_holds(notch, {2, 2}));
    CHECK(ring_holds(notch, {9, 8}));
    CHECK_FALSE(ring_holds(notch, {5, 8}));
    CHECK_FALSE(ring_holds(notch, {-1, 5}));
}

TEST_CASE("an outline has a side between every two points, all around") {
    CHECK(sides_of({{{0, 0}, {1, 0}, {1, 1}}}).size() == 3);
    const auto point = sides_of({{{2, 3}}});
    REQUIRE(point.size() == 1);
    CHECK(point[0].from == point[0].to);
}
