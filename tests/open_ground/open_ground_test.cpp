#include "open_ground/open_ground.hpp"

#include <cmath>
#include <random>

#include <doctest/doctest.h>

#include "open_ground/lattice.hpp"
#include "open_ground/support/lawn_site.hpp"
#include "support/effort.hpp"

using namespace spadework;
using namespace spadework::lawn_site;

namespace {

/// A hub and a building at these points, and a detour between them: paved, and far about.
Scenario two_points(Position hub, Position mill) {
    Scenario site = bare();
    site.hub.place = add_place(site, "hub", PlaceKind::hub, hub.x, hub.y);
    add_place(site, "mill", PlaceKind::building, mill.x, mill.y);
    Building building;
    building.id = "mill";
    building.place = 1;
    site.buildings = {building};
    add_segment(site, "round", 0, 1, paving, {{-200, -200}, {300, -200}});
    return site;
}

bool any_place_inside(const Scenario& site, const Area& area) {
    return std::any_of(site.places.begin(), site.places.end(),
                       [&area](const Place& at) { return at.laid_out && inside_by(area, at.at, 0.0011); });
}

}  // namespace

TEST_CASE("a site without areas stays as it is") {
    const Scenario site = two_points({0, 0}, {100, 0});
    const Scenario opened = open_ground::opened(site);
    CHECK(opened.places.size() == 2);
    CHECK(opened.segments.size() == 1);
    CHECK(opened.open_ground.directions == 0);
}

TEST_CASE("across a lawn between hub and building runs the straight line") {
    Scenario site = two_points({0, 10}, {97, 63});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 97, 70)});
    const Scenario opened = open_ground::opened(site);
    CHECK(least_metres(opened, "hub", "mill") == doctest::Approx(std::hypot(97, 53)).epsilon(1e-9));
    const Segment* line = find_segment(opened, "hub - mill");
    REQUIRE(line != nullptr);
    CHECK(line->ground == grass);
    CHECK(opened.areas[static_cast<std::size_t>(line->area.value())].id == "lawn");
}

TEST_CASE("around a pond the way is that of a taut string") {
    // From (0,50) past the pond's corners (40,70) and (60,70) to (100,50): twice the root of 40^2 + 20^2, and 20.
    Scenario site = two_points({0, 50}, {100, 50});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100)});
    add_area(site, "pond", AreaUse::obstacle, {box(40, 20, 60, 70)});
    const Scenario opened = open_ground::opened(site);
    CHECK(least_metres(opened, "hub", "mill") == doctest::Approx(2 * std::sqrt(2000.0) + 20).epsilon(1e-9));
}

TEST_CASE("around the inner corner of an L-shaped lawn the way is that of a taut string") {
    Scenario site = two_points({0, 100}, {100, 0});
    add_area(site, "lawn", AreaUse::open_ground, {{{0, 0}, {100, 0}, {100, 30}, {30, 30}, {30, 100}, {0, 100}}});
    const Scenario opened = open_ground::opened(site);
    CHECK(least_metres(opened, "hub", "mill") == doctest::Approx(2 * std::hypot(30, 70)).epsilon(1e-9));
}

TEST_CASE("a hole in a lawn is not crossed, and an obstacle in it neither") {
    Scenario site = two_points({0, 50}, {100, 50});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100), box(20, 30, 40, 70)});
    add_area(site, "pond", AreaUse::obstacle, {box(60, 30, 80, 70)});
    const Scenario opened = open_ground::opened(site);
    CHECK_FALSE(any_place_inside(opened, opened.areas[1]));
    for (const Segment& segment : opened.segments) {
        if (!segment.area || segment.name == "up to open ground") continue;
        for (const Position& at : points_along(segment, 0.5)) {
            CHECK_FALSE(inside_by(opened.areas[1], at, 0.0011));
            CHECK(inside_by(opened.areas[0], at, -0.001));
        }
    }
}

TEST_CASE("places within reach of open ground get a step up to it, at the price of their segment's ground") {
    Scenario site = two_points({-2, 50}, {100, 50});
    const PlaceIndex corner = add_place(site, "corner", PlaceKind::junction, 50, -2.5);
    add_segment(site, "path", corner, 0, paving, {{-50, -50}});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100)});
    const Scenario opened = open_ground::opened(site);
    const Segment* from_hub = find_segment(opened, "hub - lawn by hub");
    REQUIRE(from_hub != nullptr);
    CHECK(from_hub->length == Length::from_metres(2));
    CHECK(from_hub->ground == grass);
    const Segment* from_corner = find_segment(opened, "corner - lawn by corner");
    REQUIRE(from_corner != nullptr);
    CHECK(from_corner->ground == paving);
    CHECK(least_metres(opened, "hub", "mill") == doctest::Approx(102).epsilon(1e-9));
}

TEST_CASE("places out of reach, or behind a wall, are not joined") {
    Scenario site = two_points({-3.5, 50}, {100, 50});
    add_place(site, "corner", PlaceKind::junction, 50, -2.5);
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100)});
    add_area(site, "wall", AreaUse::obstacle, {box(40, -2, 60, -1)});
    const Scenario opened = open_ground::opened(site);
    CHECK(find_segment(opened, "hub - lawn by hub") == nullptr);
    CHECK(find_segment(opened, "corner - lawn by corner") == nullptr);
}

TEST_CASE("a building inside its own walls is joined through the middle of each wall that faces open ground") {
    Scenario site = two_points({0, 50}, {70, 50});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100)});
    add_area(site, "mill house", AreaUse::obstacle, {box(60, 40, 80, 60)});
    const Scenario opened = open_ground::opened(site);
    CHECK(least_metres(opened, "hub", "mill") == doctest::Approx(70).epsilon(1e-9));
    CHECK(find_segment(opened, "mill - lawn by mill 4") != nullptr);
}

TEST_CASE("lawns that touch are crossed together, each at its own price") {
    Scenario site = two_points({0, 50}, {100, 50});
    add_area(site, "a grass", AreaUse::open_ground, {box(0, 0, 50, 100)});
    add_area(site, "b court", AreaUse::open_ground, {box(50, 0, 100, 100)}).ground = paving;
    const Scenario opened = open_ground::opened(site);
    CHECK(least_metres(opened, "hub", "mill") == doctest::Approx(100).epsilon(1e-9));
    const double price = least(opened, place(opened, "hub"), place(opened, "mill"), [](const Segment& segment) {
        return segment.length.metres() * (segment.ground == grass ? 10 : 40);
    });
    CHECK(price == doctest::Approx(50 * 10 + 50 * 40).epsilon(1e-9));
}

TEST_CASE("an overlay over open ground makes it dearer inside, and lattice points keep out of one with charges") {
    Scenario site = two_points({0, 50}, {100, 50});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100)});
    Area& trees = add_area(site, "trees", AreaUse::overlay, {box(40, 0, 60, 90)});
    trees.extra_per_metre = UnitPrice::from_money(Money::from_minor(5000));
    trees.charges = {{"tree survey", ChargeCategory::permit, Money::from_minor(9000)}};
    const Scenario opened = open_ground::opened(site);
    CHECK_FALSE(any_place_inside(opened, opened.areas[1]));
    bool any_inside = false;
    for (const Segment& segment : opened.segments) {
        if (!segment.area) continue;
        const Position middle{(segment.polyline[0].x + segment.polyline[1].x) / 2,
                              (segment.polyline[0].y + segment.polyline[1].y) / 2};
        const bool inside = inside_by(opened.areas[1], middle, 0.001);
        any_inside = any_inside || inside;
        CHECK(segment.charges.size() == (inside ? 1 : 0));
        CHECK((opened.grounds[static_cast<std::size_t>(segment.ground)].id == "grass in trees") == inside);
    }
    CHECK(any_inside);
}

TEST_CASE("open ground that nothing leads to is left out") {
    Scenario site = two_points({0, 50}, {100, 50});
    add_area(site, "far", AreaUse::open_ground, {box(500, 500, 600, 600)});
    const Scenario opened = open_ground::opened(site);
    CHECK(opened.places.size() == 2);
    CHECK(opened.open_ground.lines == 0);
    CHECK(opened.open_ground.directions == 16);
}

TEST_CASE("ids are unique and lists sorted, also where the map uses the names that points would get") {
    Scenario site = two_points({0, 50}, {100, 50});
    add_place(site, "lawn 1,1", PlaceKind::junction, -50, -50);
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100)});
    const Scenario opened = open_ground::opened(site);
    for (std::size_t i = 1; i < opened.places.size(); ++i)
        CHECK(opened.places[i - 1].id < opened.places[i].id);
    for (std::size_t i = 1; i < opened.segments.size(); ++i)
        CHECK(opened.segments[i - 1].id < opened.segments[i].id);
    CHECK(opened.places[static_cast<std::size_t>(opened.hub.place)].id == "hub");
    CHECK(opened.places[static_cast<std::size_t>(opened.buildings[0].place)].id == "mill");
}

TEST_CASE("a spacing that makes the lattice too large is refused") {
    Scenario site = two_points({0, 50}, {100, 50});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 1000, 1000)});
    CHECK(open_ground::problem_of_lattice(site).empty());
    site.rules.open_ground.spacing = Length::from_metres(1);
    CHECK(open_ground::problem_of_lattice(site) ==
          "a spacing that makes a lattice of 1000000 points of all open ground");
}

TEST_CASE("on random lawns with random obstacles every line keeps to open ground, and no way on the map gets longer") {
    std::mt19937_64 random(7);
    const auto below = [&random](int limit) { return static_cast<double>(random() % static_cast<unsigned>(limit)); };
    for (int round = 0; round < effort(30); ++round) {
        CAPTURE(round);
        Scenario site = two_points({0, below(100)}, {100, below(100)});
        add_segment(site, "path", 0, 1, grass, {{20 + below(60), below(100)}});
        add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100)});
        for (int pond = 0; pond < 4; ++pond) {
            const double left = below(80);
            const double low = below(80);
            add_area(site, "pond " + std::to_string(pond), AreaUse::obstacle,
                     {{{left, low}, {left + 3 + below(15), low + below(3)}, {left + 5, low + 4 + below(15)}}});
            site.areas.back().bars_segments = false;
        }
        const Scenario opened = open_ground::opened(site);
        CHECK(least_metres(opened, "hub", "mill") <= least_metres(site, "hub", "mill") + 1e-9);
        int entering = 0;
        for (const Segment& segment : opened.segments) {
            if (!segment.area || segment.name == "up to open ground") continue;
            for (const Position& at : points_along(segment, 1)) {
                for (const Area& area : opened.areas) {
                    const bool wrong =
                        area.use == AreaUse::obstacle ? inside_by(area, at, 0.0011) : !inside_by(area, at, -0.001);
                    entering += wrong ? 1 : 0;
                }
            }
        }
        CHECK(entering == 0);
    }
}
