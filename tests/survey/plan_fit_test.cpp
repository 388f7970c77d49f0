#include "survey/plan_fit.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "geometry/geodesic.hpp"
#include "support/drawn_things.hpp"

using namespace spadework;
using namespace spadework::survey;

namespace {

std::vector<ControlPoint> points_of(const std::string& text) {
    Diagnostics diagnostics;
    const auto points = read_control_points({"points.csv", text}, diagnostics);
    REQUIRE(points);
    return *points;
}

std::string problem_of(const std::string& text) {
    Diagnostics diagnostics;
    CHECK_FALSE(read_control_points({"points.csv", text}, diagnostics));
    REQUIRE_FALSE(diagnostics.empty());
    return to_text(diagnostics.front());
}

/// A point of a plan that is turned by 30 degrees and drawn at a scale of 1.02.
ControlPoint turned(double x, double y) {
    const double angle = std::acos(-1.0) / 6;
    return {{x, y},
            degrees_at(1.02 * (x * std::cos(angle) - y * std::sin(angle)) + 12,
                       1.02 * (x * std::sin(angle) + y * std::cos(angle)) - 7),
            {}};
}

}  // namespace

TEST_CASE("a plan that was shifted, turned and scaled is found again, with residuals of millimetres") {
    Diagnostics diagnostics;
    const std::vector<ControlPoint> points = {turned(0, 0), turned(200, 0), turned(0, 150), turned(180, 140)};
    const auto transform = PlanTransform::fitted_to(points, "points.csv", diagnostics);
    REQUIRE(transform);
    CHECK(transform->fit().scale == doctest::Approx(1.02).epsilon(1e-4));
    CHECK(transform->fit().rotation_degrees == doctest::Approx(30).epsilon(1e-3));
    CHECK(transform->fit().root_mean_square_metres < 0.005);
    CHECK(metres_between(transform->on_map({100, 50}), turned(100, 50).map, CoordinateSystem::wgs84_degrees) < 0.01);
}

TEST_CASE("a control point that is off by metres shows in its residual, and two points leave none") {
    Diagnostics diagnostics;
    std::vector<ControlPoint> points = {turned(0, 0), turned(200, 0), turned(0, 150), turned(180, 140)};
    points[3].plan.x += 4;
    const auto transform = PlanTransform::fitted_to(points, "points.csv", diagnostics);
    REQUIRE(transform);
    CHECK(transform->fit().root_mean_square_metres > 0.5);
    CHECK(transform->fit().root_mean_square_metres < 4);
    points.resize(2);
    CHECK(PlanTransform::fitted_to(points, "points.csv", diagnostics)->fit().root_mean_square_metres < 1e-6);
}

TEST_CASE("fewer than two points, or all in one place, fix no plan") {
    Diagnostics diagnostics;
    CHECK_FALSE(PlanTransform::fitted_to({turned(0, 0)}, "points.csv", diagnostics));
    CHECK_FALSE(PlanTransform::fitted_to({turned(5, 5), turned(5, 5)}, "points.csv", diagnostics));
    CHECK(diagnostics.size() == 2);
}

TEST_CASE("control points are read with commas, semicolons and decimal commas, with headings and without") {
    CHECK(points_of("0,0,11.5,50\n10,0,11.6,50.5\n").size() == 2);
    const auto points = points_of("\xEF\xBB\xBFx;y;lon;lat\r\n1,5;2;11,5;50,25\r\n\r\n");
    REQUIRE(points.size() == 1);
    CHECK(points[0].plan == Position{1.5, 2});
    CHECK(points[0].map == Position{11.5, 50.25});
}

TEST_CASE("wrong control points are told of with their line and column") {
    CHECK(problem_of("0,0,11.5,50\n1,2,3\n").starts_with("points.csv:2:1: error: 3 values in a line"));
    CHECK(problem_of("0,0,11.5,50\n1,2,181,50\n").starts_with("points.csv:2:5: error: '181'; expected a longitude"));
    CHECK(problem_of("0,0,11.5,50\n1,nan,11,50\n").starts_with("points.csv:2:3: error: "));
    CHECK(problem_of("0,0,11.5,50\n1,,11,50\n").starts_with("points.csv:2:3: error: "));
}
