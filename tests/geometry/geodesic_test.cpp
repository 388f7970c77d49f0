#include "geometry/geodesic.hpp"

#include <cmath>

#include <doctest/doctest.h>

using namespace spadework;
using namespace spadework;

namespace {

constexpr auto degrees = CoordinateSystem::wgs84_degrees;

double from_sexagesimal(double whole, double minutes, double seconds) {
    return whole + minutes / 60 + seconds / 3600;
}

}  // namespace

TEST_CASE("Flinders Peak to Buninyong is 54 972.271 m (GEO-1, GEO-2)") {
    // Geoscience Australia, GDA technical manual, on GRS80; on WGS 84 the same to 0.1 mm (computed).
    const Position flinders{from_sexagesimal(144, 25, 29.52440), -from_sexagesimal(37, 57, 3.72030)};
    const Position buninyong{from_sexagesimal(143, 55, 35.38390), -from_sexagesimal(37, 39, 10.15610)};
    CHECK(std::abs(metres_between(flinders, buninyong, degrees) - 54972.271) < 0.001);
    CHECK(metres_between(flinders, buninyong, degrees) == metres_between(buninyong, flinders, degrees));
    // A sphere gives 54 925.508 m (GEO-11): far from good enough.
    CHECK(std::abs(metres_between(flinders, buninyong, degrees) - 54925.508) > 46);
}

TEST_CASE("nearly opposite points are right to a hundredth of a millimetre (GEO-6)") {
    // Documented example of GeographicLib.
    const double metres = metres_between({174.81, -41.32}, {-5.50, 40.96}, degrees);
    CHECK(std::abs(metres - 19959679.26735382) < 1e-5);
}

TEST_CASE("ocean crossings are those of the reference programs (GEO-7, GEO-8, from memory and computed)") {
    CHECK(std::abs(metres_between({-73.8, 40.6}, {2.55, 49.01666667}, degrees) - 5853226.256) < 0.001);
    CHECK(std::abs(metres_between({-73.8, 40.6}, {-0.5, 51.6}, degrees) - 5551759.400) < 0.001);
}

TEST_CASE("a quadrant and a degree of the equator have their published lengths (GEO-9)") {
    CHECK(std::abs(metres_between({0, 0}, {0, 90}, degrees) - 10001965.729) < 0.001);
    CHECK(std::abs(metres_between({0, 0}, {1, 0}, degrees) - 111319.491) < 0.001);
}

TEST_CASE("a thousandth of a degree at 40 N is 111.0346 m north and 85.3939 m east (GEO-10, computed)") {
    CHECK(std::abs(metres_between({10, 40}, {10, 40.001}, degrees) - 111.0346) < 0.0001);
    CHECK(std::abs(metres_between({10, 40}, {10.001, 40}, degrees) - 85.3939) < 0.0001);
}

TEST_CASE("the 180th meridian is no wall") {
    CHECK(metres_between({179.9995, 0}, {-179.9995, 0}, degrees) == doctest::Approx(111.319491));
}

TEST_CASE("a plane is plain") {
    CHECK(metres_between({0, 0}, {3, 4}, CoordinateSystem::plane_metres) == 5);
}

TEST_CASE("a polyline is as long as its parts") {
    const std::vector<Position> line = {{10, 40}, {10, 40.001}, {10.001, 40.001}};
    CHECK(metres_along(line, degrees) ==
          metres_between(line[0], line[1], degrees) + metres_between(line[1], line[2], degrees));
    CHECK(metres_along({}, degrees) == 0);
    CHECK(metres_along({{10, 40}}, degrees) == 0);
    CHECK(metres_along({{0, 0}, {3, 4}, {3, 10}}, CoordinateSystem::plane_metres) == 11);
}
