#include "geometry/geodesic.hpp"

#include <cmath>

#include <GeographicLib/Geodesic.hpp>

namespace spadework {

double metres_between(const Position& a, const Position& b, CoordinateSystem coordinates) {
    if (coordinates == CoordinateSystem::plane_metres) return std::hypot(a.x - b.x, a.y - b.y);
    double metres = 0;
    GeographicLib::Geodesic::WGS84().Inverse(a.y, a.x, b.y, b.x, metres);
    return metres;
}

double metres_along(const std::vector<Position>& polyline, CoordinateSystem coordinates) {
    double metres = 0;
    for (std::size_t i = 1; i < polyline.size(); ++i)
        metres += metres_between(polyline[i - 1], polyline[i], coordinates);
    return metres;
}

}  // namespace spadework
