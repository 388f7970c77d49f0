#pragma once

#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// Positions as metres on a plane. A local plan stays as it is; degrees are scaled by the radii of curvature of the
/// WGS 84 ellipsoid (NGA.STND.0036) at a middle latitude, longitudes counted from a middle one so that the 180th
/// meridian is crossed smoothly. Good to about 0.1 % within 10 km: for finding what is near, not for lengths to pay.
class LocalPlane {
public:
    /// Around the mean of these positions.
    LocalPlane(CoordinateSystem coordinates, const std::vector<Position>& around);

    [[nodiscard]] Position to_plane(const Position& at) const;
    [[nodiscard]] Position from_plane(const Position& metres) const;

private:
    double middle_longitude_ = 0;
    double middle_latitude_ = 0;
    double metres_per_degree_east_ = 1;
    double metres_per_degree_north_ = 1;
    bool degrees_ = false;
};

}  // namespace spadework
