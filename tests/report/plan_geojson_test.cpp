#include "report/plan_geojson.hpp"

#include <map>
#include <string>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "report/support/crossroads_comparison.hpp"

namespace spadework::report {

namespace {

using Json = nlohmann::json;

Json written(const Scenario& scenario, const RoutedLayout& routed) {
    const LayoutResult result = assess(scenario, crossroads::design_of(scenario, routed));
    REQUIRE_MESSAGE(result.feasible(), result.reason);
    return Json::parse(plan_geojson(scenario, result));
}

/// RFC 7946 sections 3.1 to 3.3: types, positions of two numbers, lines of two positions or more.
void check_form(const Json& collection) {
    CHECK(collection["type"] == "FeatureCollection");
    REQUIRE(collection["features"].is_array());
    for (const Json& feature : collection["features"]) {
        CHECK(feature["type"] == "Feature");
        CHECK(feature["properties"].is_object());
        const Json& geometry = feature["geometry"];
        if (geometry.is_null()) continue;
        const Json& coordinates = geometry["coordinates"];
        if (geometry["type"] == "Point") {
            CHECK(coordinates.size() == 2);
            continue;
        }
        CHECK(geometry["type"] == "LineString");
        CHECK(coordinates.size() >= 2);
        for (const Json& position : coordinates) {
            CHECK(position.size() == 2);
            CHECK(position[0].is_number());
        }
    }
}

std::map<std::string, int> kinds_of(const Json& collection) {
    std::map<std::string, int> kinds;
    for (const Json& feature : collection["features"])
        ++kinds[feature["properties"]["kind"].get<std::string>()];
    return kinds;
}

}  // namespace

TEST_CASE("hub, buildings, enclosures, places passed, segments and cables are all drawn") {
    const Json plan = written(crossroads::site(), crossroads::trunk());
    check_form(plan);
    CHECK(kinds_of(plan) == std::map<std::string, int>{{"hub", 1},
                                                       {"building", 3},
                                                       {"enclosure", 1},
                                                       {"place", 2},
                                                       {"trench", 5},
                                                       {"pole-line", 1},
                                                       {"cable", 4}});
}

TEST_CASE("a cable is drawn from its beginning to its end though segments were given the other way round") {
    Scenario scenario = crossroads::site();
    const Json plan = written(scenario, crossroads::trunk());
    for (const Json& feature : plan["features"]) {
        if (feature["properties"]["kind"] != "cable" || feature["properties"]["id"] != "drop-lodge") continue;
        // corner, yard, lodge; the wires are given from the corner, the fence from the yard.
        CHECK(feature["geometry"]["coordinates"] == Json::parse("[[150, 0], [190, -60], [150, -70]]"));
    }
    std::swap(scenario.segments[crossroads::wires].from, scenario.segments[crossroads::wires].to);
    std::swap(scenario.segments[crossroads::wires].polyline[0], scenario.segments[crossroads::wires].polyline[1]);
    const Json turned = written(scenario, crossroads::trunk());
    CHECK(turned["features"].back() == plan["features"].back());
}

TEST_CASE("the cable that closes a ring is drawn from the hub to the ring's last building") {
    const Json plan = written(crossroads::site(), crossroads::rings());
    int closings = 0;
    for (const Json& feature : plan["features"]) {
        if (feature["properties"].value("role", "") != "closing") continue;
        ++closings;
        if (feature["properties"]["id"] != "closing-barn") continue;
        CHECK(feature["geometry"]["coordinates"] == Json::parse("[[0, 0], [60, 0], [150, 0], [230, 0]]"));
    }
    CHECK(closings == 2);
}

TEST_CASE("local metres are said to be such, longitude and latitude need no note") {
    Scenario scenario = crossroads::site();
    CHECK(written(scenario, crossroads::trunk()).contains("note"));
    scenario.coordinates = CoordinateSystem::wgs84_degrees;
    scenario.places[crossroads::hub].at = {8.123456789, -47.5};
    const Json plan = written(scenario, crossroads::trunk());
    CHECK(!plan.contains("note"));
    CHECK(plan["features"][0]["geometry"]["coordinates"] == Json::parse("[8.123456789, -47.5]"));
}

TEST_CASE("hostile names come through as valid GeoJSON, and a cable without length has no line") {
    check_form(written(crossroads::hostile_site(), crossroads::chains()));
    const Scenario scenario = crossroads::site();
    LayoutResult result = assess(scenario, crossroads::design_of(scenario, crossroads::trunk()));
    result.plan->cables[0].steps.clear();
    check_form(Json::parse(plan_geojson(scenario, result)));
}

}  // namespace spadework::report
