#include "scenario/local_plane.hpp"

#include <cmath>

#include <doctest/doctest.h>

using namespace spadework;

TEST_CASE("a thousandth of a degree at 40 N has the metres of the WGS 84 ellipsoid (GEO-10)") {
    const LocalPlane plane(CoordinateSystem::wgs84_degrees, {{10, 40}});
    const Position east = plane.to_plane({10.001, 40});
    const Position north = plane.to_plane({10, 40.001});
    CHECK(east.x == doctest::Approx(85.3939).epsilon(1e-5));
    CHECK(east.y == doctest::Approx(0));
    CHECK(north.y == doctest::Approx(111.0346).epsilon(1e-5));
}

TEST_CASE("a local plan stays as it is") {
    const LocalPlane plane(CoordinateSystem::plane_metres, {{3, 4}});
    CHECK(plane.to_plane({12, -7}) == Position{12, -7});
    CHECK(plane.from_plane({12, -7}) == Position{12, -7});
}

TEST_CASE("going to the plane and back changes nothing") {
    const LocalPlane plane(CoordinateSystem::wgs84_degrees, {{-77.16, 39.1}, {-77.15, 39.09}});
    for (const Position at : {Position{-77.16, 39.1}, Position{-77.2, 39.0}, Position{-77.15, 39.095}}) {
        const Position back = plane.from_plane(plane.to_plane(at));
        CHECK(back.x == doctest::Approx(at.x).epsilon(1e-13));
        CHECK(back.y == doctest::Approx(at.y).epsilon(1e-13));
    }
}

TEST_CASE("a site on the 180th meridian is not torn apart") {
    const LocalPlane plane(CoordinateSystem::wgs84_degrees, {{179.999, -17}, {-179.999, -17}});
    const double metres = plane.to_plane({-179.999, -17}).x - plane.to_plane({179.999, -17}).x;
    CHECK(metres > 200);
    CHECK(metres < 220);
}
