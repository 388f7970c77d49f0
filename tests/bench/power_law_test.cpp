#include "support/power_law.hpp"

#include <cmath>

#include <doctest/doctest.h>

namespace spadework::bench {

TEST_CASE("a power law is found again from points on it") {
    std::vector<SizeAndTime> points;
    for (const double size : {250.0, 1000.0, 3000.0, 20000.0})
        points.push_back({size, 0.002 * std::pow(size, 1.5)});
    const auto law = fitted_power_law(points);
    REQUIRE(law);
    CHECK(law->exponent == doctest::Approx(1.5));
    CHECK(law->factor == doctest::Approx(0.002));
    CHECK(law->spread == doctest::Approx(0.0));
}

TEST_CASE("a power law through scattered points keeps the middle and tells the spread") {
    // Twice as long and half as long at either size: the line stays, ln 2 off each point.
    const auto law = fitted_power_law({{10, 2}, {10, 0.5}, {1000, 200}, {1000, 50}});
    REQUIRE(law);
    CHECK(law->exponent == doctest::Approx(1.0));
    CHECK(law->spread == doctest::Approx(std::log(2.0)));
}

TEST_CASE("one size alone has no power law") {
    CHECK_FALSE(fitted_power_law({}));
    CHECK_FALSE(fitted_power_law({{100, 1}, {100, 2}}));
}

}  // namespace spadework::bench
