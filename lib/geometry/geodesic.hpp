#pragma once

#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// Length in metres of the shortest line between two points: straight on a plane, the geodesic on the WGS 84 ellipsoid
/// (Karney 2013, by GeographicLib; exact to about 10 nm). Longitude and latitude in degrees, latitude within 90.
double metres_between(const Position& a, const Position& b, CoordinateSystem coordinates);

/// Sum over a polyline, point to point; 0 for fewer than two points.
double metres_along(const std::vector<Position>& polyline, CoordinateSystem coordinates);

}  // namespace spadework
