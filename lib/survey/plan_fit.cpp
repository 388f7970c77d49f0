#include "survey/plan_fit.hpp"

#include <cmath>
#include <numbers>

#include <Eigen/Dense>
#include <fmt/format.h>

#include "geometry/geodesic.hpp"

namespace spadework::survey {

namespace {

constexpr auto degrees = CoordinateSystem::wgs84_degrees;
/// Control points must spread over more than this, or they fix no rotation.
constexpr double least_spread_metres = 0.1;

std::vector<Position> map_positions(const std::vector<ControlPoint>& points) {
    std::vector<Position> positions;
    for (const ControlPoint& point : points)
        positions.push_back(point.map);
    return positions;
}

Position middle_on_plan(const std::vector<ControlPoint>& points) {
    Position middle;
    for (const ControlPoint& point : points) {
        middle.x += point.plan.x / static_cast<double>(points.size());
        middle.y += point.plan.y / static_cast<double>(points.size());
    }
    return middle;
}

double spread(const std::vector<ControlPoint>& points, bool on_map) {
    double most = 0;
    for (const ControlPoint& point : points) {
        const double metres = on_map ? metres_between(points.front().map, point.map, degrees)
                                     : metres_between(points.front().plan, point.plan, CoordinateSystem::plane_metres);
        most = std::max(most, metres);
    }
    return most;
}

}  // namespace

PlanTransform::PlanTransform(const std::vector<ControlPoint>& points)
    : plane_(degrees, map_positions(points)), plan_middle_(middle_on_plan(points)) {
    // east = c x - s y + e and north = s x + c y + n, two rows a point, for the unknowns c, s, e, n.
    const auto rows = static_cast<Eigen::Index>(2 * points.size());
    Eigen::MatrixXd rows_of_plan(rows, 4);
    Eigen::VectorXd on_plane(rows);
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double x = points[i].plan.x - plan_middle_.x;
        const double y = points[i].plan.y - plan_middle_.y;
        const Position map = plane_.to_plane(points[i].map);
        const auto row = static_cast<Eigen::Index>(2 * i);
        rows_of_plan.row(row) << x, -y, 1, 0;
        rows_of_plan.row(row + 1) << y, x, 0, 1;
        on_plane(row) = map.x;
        on_plane(row + 1) = map.y;
    }
    const Eigen::Vector4d found = rows_of_plan.colPivHouseholderQr().solve(on_plane);
    cosine_ = found(0);
    sine_ = found(1);
    east_ = found(2);
    north_ = found(3);
}

std::optional<PlanTransform> PlanTransform::fitted_to(const std::vector<ControlPoint>& points,
                                                      const std::string& source, Diagnostics& diagnostics) {
    const auto fail = [&](std::string found, std::string wanted) {
        diagnostics.push_back({{source, 0, 0}, Severity::error, std::move(found), std::move(wanted), ""});
        return std::nullopt;
    };
    if (points.size() < 2)
        return fail(fmt::format("{} control point{}", points.size(), points.size() == 1 ? "" : "s"), "two or more");
    for (const bool on_map : {false, true}) {
        if (spread(points, on_map) < least_spread_metres)
            return fail(fmt::format("all control points are in one place on the {}", on_map ? "map" : "plan"),
                        "points far apart, for the plan's direction and scale");
    }
    PlanTransform transform(points);
    PlanFit& fit = transform.fit_;
    fit.source = source;
    fit.scale = std::hypot(transform.cosine_, transform.sine_);
    fit.rotation_degrees = std::atan2(transform.sine_, transform.cosine_) * 180 / std::numbers::pi;
    double squares = 0;
    for (const ControlPoint& point : points) {
        const double metres = metres_between(transform.on_map(point.plan), point.map, degrees);
        fit.residuals.push_back({point, metres});
        squares += metres * metres;
    }
    fit.root_mean_square_metres = std::sqrt(squares / static_cast<double>(points.size()));
    return transform;
}

Position PlanTransform::on_map(const Position& plan) const {
    const double x = plan.x - plan_middle_.x;
    const double y = plan.y - plan_middle_.y;
    return plane_.from_plane({cosine_ * x - sine_ * y + east_, sine_ * x + cosine_ * y + north_});
}

void lay_on_map(drawn_map::DrawnMap& map, const PlanTransform& transform) {
    for (drawn_map::Feature& feature : map.features) {
        for (std::vector<Position>& part : feature.parts) {
            for (Position& position : part)
                position = transform.on_map(position);
        }
    }
    map.coordinates = CoordinateSystem::wgs84_degrees;
}

}  // namespace spadework::survey
