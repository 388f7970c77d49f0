#include "comparison/ground_check.hpp"

#include <doctest/doctest.h>

using namespace spadework;
using verification::ground_fault;
using verification::same_ground;

namespace {

Area area(const std::string& id, AreaUse use, double left, double low, double right, double high) {
    Area made;
    made.id = id;
    made.use = use;
    made.rings = {{{left, low}, {right, low}, {right, high}, {left, high}}};
    return made;
}

/// A lawn of 100 by 100 with a pond in its middle and a park over its north, and a hub at its west.
Scenario site() {
    Scenario made;
    made.areas = {area("lawn", AreaUse::open_ground, 0, 0, 100, 100), area("park", AreaUse::overlay, 0, 80, 100, 100),
                  area("pond", AreaUse::obstacle, 40, 40, 60, 60)};
    made.rules.open_ground.reach = Length::from_metres(3);
    Place hub;
    hub.kind = PlaceKind::hub;
    hub.at = {0, 50};
    Place junction;
    junction.at = {100, 50};
    made.places = {hub, junction};
    return made;
}

Segment line(std::vector<Position> polyline, bool over_open_ground = true) {
    Segment made;
    made.id = "line";
    made.from = 0;
    made.to = 1;
    made.polyline = std::move(polyline);
    made.length = Length::from_metres(50);
    if (over_open_ground) made.area = 0;
    return made;
}

}  // namespace

TEST_CASE("a line that keeps to open ground has no fault, also along a border and past a corner") {
    CHECK(ground_fault(site(), line({{0, 10}, {100, 30}})).empty());
    CHECK(ground_fault(site(), line({{0, 0}, {100, 0}})).empty());
    CHECK(ground_fault(site(), line({{40, 0}, {40, 100}})).empty());
    CHECK(ground_fault(site(), line({{20, 60}, {60, 60}})).empty());
}

TEST_CASE("a line through an obstacle is found, however little of it") {
    CHECK(ground_fault(site(), line({{0, 50}, {100, 50}})) == "Segment line enters the obstacle pond.");
    CHECK(ground_fault(site(), line({{30, 49.9}, {49.9, 30}})) == "");
    CHECK(ground_fault(site(), line({{30, 50.1}, {50.1, 30}})) == "Segment line enters the obstacle pond.");
}

TEST_CASE("a line that leaves open ground is found, unless it is a step within reach") {
    CHECK(ground_fault(site(), line({{0, 10}, {110, 10}})) == "Segment line leaves open ground.");
    Segment step = line({{100, 10}, {102, 10}});
    step.length = Length::from_metres(2);
    CHECK(ground_fault(site(), step).empty());
}

TEST_CASE("a segment of the map need not keep to open ground, but out of obstacles that bar segments") {
    CHECK(ground_fault(site(), line({{-50, 10}, {150, 10}}, false)).empty());
    CHECK(ground_fault(site(), line({{0, 50}, {20, 20}, {50, 50}}, false)) == "Segment line enters the obstacle pond.");
    Scenario passed = site();
    passed.areas[2].bars_segments = false;
    CHECK(ground_fault(passed, line({{0, 50}, {100, 50}}, false)).empty());
    CHECK_FALSE(ground_fault(passed, line({{0, 50}, {100, 50}})).empty());
}

TEST_CASE("a building or hub may stand inside its own walls, a junction may not") {
    Scenario walled = site();
    walled.places[0].at = {50, 50};
    CHECK(ground_fault(walled, line({{50, 50}, {100, 50}})).empty());
    walled.places[0].kind = PlaceKind::junction;
    CHECK_FALSE(ground_fault(walled, line({{50, 50}, {100, 50}})).empty());
}

TEST_CASE("lines lie on the same ground when the same open ground and overlays lie over both all along") {
    CHECK(same_ground(site(), line({{0, 10}, {100, 30}}), line({{0, 0}, {100, 0}})));
    CHECK(same_ground(site(), line({{0, 85}, {100, 90}}), line({{10, 90}, {20, 95}})));
    CHECK_FALSE(same_ground(site(), line({{0, 10}, {100, 30}}), line({{0, 85}, {100, 90}})));
    CHECK_FALSE(same_ground(site(), line({{0, 10}, {100, 30}}), line({{0, 70}, {100, 90}})));
}
