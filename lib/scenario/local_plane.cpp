#include "scenario/local_plane.hpp"

#include <cmath>
#include <numbers>

namespace spadework {

LocalPlane::LocalPlane(CoordinateSystem coordinates, const std::vector<Position>& around)
    : degrees_(coordinates == CoordinateSystem::wgs84_degrees) {
    if (!degrees_ || around.empty()) return;
    constexpr double equatorial_radius = 6378137.0;
    constexpr double flattening = 1 / 298.257223563;
    constexpr double eccentricity_squared = flattening * (2 - flattening);
    constexpr double radians = std::numbers::pi / 180;
    double longitude_beyond_first = 0;
    for (const Position& at : around) {
        longitude_beyond_first += std::remainder(at.x - around.front().x, 360.0) / static_cast<double>(around.size());
        middle_latitude_ += at.y / static_cast<double>(around.size());
    }
    middle_longitude_ = around.front().x + longitude_beyond_first;
    const double sine = std::sin(middle_latitude_ * radians);
    const double w = 1 - eccentricity_squared * sine * sine;
    metres_per_degree_north_ = equatorial_radius * (1 - eccentricity_squared) / std::pow(w, 1.5) * radians;
    metres_per_degree_east_ = equatorial_radius / std::sqrt(w) * std::cos(middle_latitude_ * radians) * radians;
}

Position LocalPlane::to_plane(const Position& at) const {
    if (!degrees_) return at;
    return {std::remainder(at.x - middle_longitude_, 360.0) * metres_per_degree_east_,
            (at.y - middle_latitude_) * metres_per_degree_north_};
}

Position LocalPlane::from_plane(const Position& metres) const {
    if (!degrees_) return metres;
    return {std::remainder(metres.x / metres_per_degree_east_ + middle_longitude_, 360.0),
            metres.y / metres_per_degree_north_ + middle_latitude_};
}

}  // namespace spadework
