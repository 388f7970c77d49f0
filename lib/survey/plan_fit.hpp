#pragma once

// A local site plan in metres laid onto the map by points known in both.

#include <optional>
#include <string>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "drawn_map/drawn_map.hpp"
#include "scenario/local_plane.hpp"
#include "site_file/source_text.hpp"

namespace spadework::survey {

/// A point known on the plan and on the map.
struct ControlPoint {
    Position plan;  ///< Metres east and north on the plan.
    Position map;   ///< Longitude and latitude in degrees.
    SourcePosition where;
};

/// Reads control points from a CSV text: x, y, longitude, latitude a line, with commas, semicolons or tabs between, a
/// decimal comma where the separator is another, and perhaps a line of headings. Nothing, and every problem with its
/// place, where there are errors.
std::optional<std::vector<ControlPoint>> read_control_points(const site_file::SourceText& source,
                                                             Diagnostics& diagnostics);

/// How far a control point is off after the fit.
struct Residual {
    ControlPoint point;
    double metres = 0;
};

/// A fitted plan.
struct PlanFit {
    std::string source;           ///< Of the control points.
    double scale = 1;             ///< Metres on the ground for a metre on the plan.
    double rotation_degrees = 0;  ///< Of the plan, anticlockwise, to lie on the map.
    std::vector<Residual> residuals;
    double root_mean_square_metres = 0;
};

/// The similarity (shift, rotation, one scale) from plan to map that makes the sum of squared residuals least (linear
/// least squares, solved by QR with Eigen).
class PlanTransform {
public:
    /// Nothing, and an error, with fewer than two points or where all lie in one place on the plan or on the map.
    static std::optional<PlanTransform> fitted_to(const std::vector<ControlPoint>& points, const std::string& source,
                                                  Diagnostics& diagnostics);

    /// Degrees of a position on the plan.
    [[nodiscard]] Position on_map(const Position& plan) const;
    [[nodiscard]] const PlanFit& fit() const { return fit_; }

private:
    explicit PlanTransform(const std::vector<ControlPoint>& points);

    LocalPlane plane_;
    Position plan_middle_;  ///< Plan coordinates count from here, so that large ones lose no digits.
    double cosine_ = 1;     ///< Scale times cosine.
    double sine_ = 0;
    double east_ = 0;
    double north_ = 0;
    PlanFit fit_;
};

/// Moves a map in plane metres onto the map in degrees.
void lay_on_map(drawn_map::DrawnMap& map, const PlanTransform& transform);

}  // namespace spadework::survey
