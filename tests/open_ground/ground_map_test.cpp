#include "open_ground/ground_map.hpp"

#include <doctest/doctest.h>

#include "open_ground/support/lawn_site.hpp"

using namespace spadework;
using namespace spadework::open_ground;
using namespace spadework::lawn_site;

namespace {

/// A lawn of 100 by 100 with a flower bed, a pond, a park over its east and two sheds side by side.
Scenario garden() {
    Scenario site = bare();
    add_area(site, "bed", AreaUse::open_ground, {box(10, 10, 20, 20)});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100), box(80, 80, 90, 90)});
    add_area(site, "park", AreaUse::overlay, {box(50, -10, 110, 110)});
    add_area(site, "pond", AreaUse::obstacle, {box(30, 40, 40, 60)});
    add_area(site, "shed-1", AreaUse::obstacle, {box(60, 10, 70, 20)});
    add_area(site, "shed-2", AreaUse::obstacle, {box(70, 10, 80, 20)});
    return site;
}

constexpr int bed = 0, lawn = 1, park = 2, pond = 3, shed_1 = 4;

}  // namespace

TEST_CASE("the smallest open ground counts, its border belongs to it, and holes do not") {
    const Scenario site = garden();
    const GroundMap ground(site);
    CHECK(ground.zone_at({5, 5}).open == lawn);
    CHECK(ground.zone_at({15, 15}).open == bed);
    CHECK(ground.zone_at({0, 50}).open == lawn);
    CHECK(ground.zone_at({85, 85}).open == -1);
    CHECK(ground.zone_at({-1, 50}).open == -1);
}

TEST_CASE("a point is in an obstacle when it is deeper than positions are rounded") {
    const Scenario site = garden();
    const GroundMap ground(site);
    CHECK(ground.zone_at({35, 50}).obstacle == pond);
    CHECK(ground.zone_at({30.002, 50}).obstacle == pond);
    CHECK(ground.zone_at({30.0005, 50}).obstacle == -1);
    CHECK_FALSE(ground.zone_at({35, 50}).may_be_dug());
}

TEST_CASE("a line is cut where its zone changes") {
    const Scenario site = garden();
    const GroundMap ground(site);
    const std::vector<Run> runs = ground.runs_of({{0, 50}, {100, 50}});
    REQUIRE(runs.size() == 4);
    CHECK(runs[0].to == Position{30, 50});
    CHECK(runs[1].zone.obstacle == pond);
    CHECK(runs[2].from == Position{40, 50});
    CHECK(runs[2].to == Position{50, 50});
    CHECK(runs[3].zone.overlays == std::vector<int>{park});
    CHECK(runs[3].to == Position{100, 50});
}

TEST_CASE("a line along an obstacle's wall is free, but not between two obstacles that touch") {
    const Scenario site = garden();
    const GroundMap ground(site);
    const std::vector<Run> along = ground.runs_of({{60, 5}, {60, 25}});
    REQUIRE(along.size() == 1);
    CHECK(along[0].zone.may_be_dug());
    const std::vector<Run> between = ground.runs_of({{70, 5}, {70, 25}});
    REQUIRE(between.size() == 3);
    CHECK(between[1].zone.obstacle == shed_1);
}

TEST_CASE("an obstacle that is passed is as if it were not there") {
    const Scenario site = garden();
    const std::vector<Run> runs = GroundMap(site).runs_of({{25, 50}, {45, 50}}, {pond});
    REQUIRE(runs.size() == 1);
    CHECK(runs[0].zone.may_be_dug());
}

TEST_CASE("open ground within reach is found with the nearest point of its border") {
    const Scenario site = garden();
    const auto near = GroundMap(site).open_ground_near({-2, 30}, 3);
    REQUIRE(near.size() == 1);
    CHECK(near[0].area == lawn);
    CHECK(near[0].at == Position{0, 30});
    CHECK(GroundMap(site).open_ground_near({-4, 30}, 3).empty());
}

TEST_CASE("the size of an area leaves out its holes") {
    const Scenario site = garden();
    CHECK(GroundMap(site).square_metres(lawn) == doctest::Approx(9900));
}
