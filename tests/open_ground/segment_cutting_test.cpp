#include "open_ground/segment_cutting.hpp"

#include <doctest/doctest.h>

#include "open_ground/open_ground.hpp"
#include "open_ground/support/lawn_site.hpp"

using namespace spadework;
using namespace spadework::lawn_site;

namespace {

/// A hub and a building 100 m east of it, joined by a paved drive.
Scenario drive() {
    Scenario site = bare();
    site.hub.place = add_place(site, "hub", PlaceKind::hub, 0, 0);
    const PlaceIndex mill = add_place(site, "mill", PlaceKind::building, 100, 0);
    Building building;
    building.id = "mill";
    building.place = mill;
    site.buildings = {building};
    add_segment(site, "drive", site.hub.place, mill, paving);
    return site;
}

Length sum_of_lengths(const Scenario& site) {
    Length sum;
    for (const Segment& segment : site.segments)
        sum += segment.length;
    return sum;
}

}  // namespace

TEST_CASE("a segment is cut at the border of an overlay to the millimetre, and changes its ground inside") {
    Scenario site = drive();
    add_area(site, "park", AreaUse::overlay, {box(12.345, -5, 70, 5)}).ground = grass;
    const Scenario opened = open_ground::opened(site);
    REQUIRE(opened.segments.size() == 3);
    CHECK(opened.segments[0].id == "drive.1");
    CHECK(opened.segments[0].length == Length::from_millimetres(12345));
    CHECK(opened.segments[1].length == Length::from_millimetres(57655));
    CHECK(opened.segments[2].length == Length::from_millimetres(30000));
    CHECK(opened.grounds[static_cast<std::size_t>(opened.segments[0].ground)].id == "paving");
    CHECK(opened.grounds[static_cast<std::size_t>(opened.segments[1].ground)].id == "grass");
    CHECK(opened.segments[1].polyline.front() == Position{12.345, 0});
    CHECK(opened.places[static_cast<std::size_t>(opened.segments[0].to)].laid_out);
    CHECK(opened.open_ground.segments_cut == 1);
}

TEST_CASE("a stated length is shared out among the pieces, and nothing of it is lost") {
    Scenario site = drive();
    site.segments[0].length = Length::from_millimetres(110'001);
    add_area(site, "park", AreaUse::overlay, {box(33.3, -5, 66.6, 5)}).ground = grass;
    const Scenario opened = open_ground::opened(site);
    REQUIRE(opened.segments.size() == 3);
    CHECK(sum_of_lengths(opened) == Length::from_millimetres(110'001));
    CHECK(opened.segments[0].length == Length::from_millimetres(36630));
}

TEST_CASE("bends stay on the piece that they lie on") {
    Scenario site = drive();
    site.segments.clear();
    add_segment(site, "drive", 0, 1, paving, {{0, 30}, {100, 30}});
    add_area(site, "park", AreaUse::overlay, {box(40, 20, 60, 40)}).ground = grass;
    const Scenario opened = open_ground::opened(site);
    REQUIRE(opened.segments.size() == 3);
    CHECK(opened.segments[0].polyline == std::vector<Position>{{0, 0}, {0, 30}, {40, 30}});
    CHECK(opened.segments[0].length == Length::from_metres(70));
    CHECK(opened.segments[1].polyline == std::vector<Position>{{40, 30}, {60, 30}});
    CHECK(opened.segments[2].polyline == std::vector<Position>{{60, 30}, {100, 30}, {100, 0}});
}

TEST_CASE("an extra price makes a ground of its own, and charges come once for each segment inside") {
    Scenario site = drive();
    Area& park = add_area(site, "park", AreaUse::overlay, {box(50, -5, 200, 5)});
    park.extra_per_metre = UnitPrice::from_money(Money::from_minor(400));
    park.charges = {{"tree survey", ChargeCategory::permit, Money::from_minor(9000)}};
    const Scenario opened = open_ground::opened(site);
    REQUIRE(opened.segments.size() == 2);
    const Ground& dearer = opened.grounds[static_cast<std::size_t>(opened.segments[1].ground)];
    CHECK(dearer.id == "paving in park");
    CHECK(dearer.methods[0].material_per_metre == UnitPrice::from_money(Money::from_minor(400)));
    CHECK(dearer.methods[0].plant_per_metre == UnitPrice::from_money(Money::from_minor(4000)));
    CHECK(opened.segments[0].charges.empty());
    REQUIRE(opened.segments[1].charges.size() == 1);
    CHECK(opened.segments[1].charges[0].amount == Money::from_minor(9000));
}

TEST_CASE("where overlays overlap the smaller one's ground counts and extra prices add up") {
    Scenario site = drive();
    site.grounds.push_back(site.grounds[grass]);
    site.grounds.back().id = "sand";
    Area& large = add_area(site, "a large", AreaUse::overlay, {box(-50, -50, 150, 50)});
    large.ground = 2;
    large.extra_per_metre = UnitPrice::from_money(Money::from_minor(100));
    Area& small = add_area(site, "b small", AreaUse::overlay, {box(-40, -40, 140, 40)});
    small.ground = grass;
    small.extra_per_metre = UnitPrice::from_money(Money::from_minor(300));
    const Scenario opened = open_ground::opened(site);
    REQUIRE(opened.segments.size() == 1);
    CHECK(opened.segments[0].id == "drive");
    const Ground& ground = opened.grounds[static_cast<std::size_t>(opened.segments[0].ground)];
    CHECK(ground.id == "grass in a large and b small");
    CHECK(ground.methods[0].material_per_metre == UnitPrice::from_money(Money::from_minor(400)));
}

TEST_CASE("a segment's own charge stays with its longest piece, duct, poles and ban with all") {
    Scenario site = drive();
    site.segments[0].charges = {{"road crossing", ChargeCategory::crossing, Money::from_minor(45000)}};
    site.segments[0].duct_room = 2;
    site.segments[0].ban = "no";
    add_area(site, "park", AreaUse::overlay, {box(30, -5, 90, 5)}).ground = grass;
    const Scenario opened = open_ground::opened(site);
    REQUIRE(opened.segments.size() == 3);
    CHECK(opened.segments[0].charges.empty());
    CHECK(opened.segments[1].charges.size() == 1);
    CHECK(opened.segments[2].charges.empty());
    for (const Segment& segment : opened.segments) {
        CHECK(segment.duct_room == 2);
        CHECK(segment.ban == "no");
    }
}

TEST_CASE("a segment that enters an obstacle is barred, with the obstacle's name") {
    Scenario site = drive();
    add_area(site, "pond", AreaUse::obstacle, {box(40, -5, 60, 5)}).name = "Mill pond";
    const Scenario opened = open_ground::opened(site);
    CHECK(opened.segments[0].ban == "enters the obstacle pond (Mill pond)");
    REQUIRE(opened.open_ground.barred.size() == 1);
    CHECK(opened.open_ground.barred[0].id == "drive");
}

TEST_CASE("a segment along an obstacle's border, or up to it, is not barred, nor one through what bars no segments") {
    Scenario site = drive();
    add_area(site, "beside", AreaUse::obstacle, {box(20, 0, 40, 10)});
    add_area(site, "behind", AreaUse::obstacle, {box(100, -5, 120, 5)});
    add_area(site, "passage", AreaUse::obstacle, {box(50, -5, 60, 5)}).bars_segments = false;
    const Scenario opened = open_ground::opened(site);
    CHECK(opened.segments[0].ban.empty());
}

TEST_CASE("the way out of a building's own walls is no entering, but through another's is") {
    Scenario site = drive();
    add_area(site, "mill house", AreaUse::obstacle, {box(90, -10, 110, 10)});
    CHECK(open_ground::opened(site).segments[0].ban.empty());
    add_area(site, "shop", AreaUse::obstacle, {box(50, -10, 60, 10)});
    CHECK(open_ground::opened(site).segments[0].ban == "enters the obstacle shop");
}

TEST_CASE("a segment beside open ground is cut at whole steps, each of which costs a whole number of cents") {
    Scenario site = drive();
    add_area(site, "lawn", AreaUse::open_ground, {box(20, 1, 80, 60)});
    site.rules.open_ground.spacing = Length::from_metres(10);
    const Scenario opened = open_ground::opened(site);
    CHECK(find_segment(opened, "drive") == nullptr);
    Length sum;
    for (int i = 1; i <= 9; ++i) {
        const Segment* piece = find_segment(opened, "drive." + std::to_string(i));
        if (piece == nullptr) continue;
        sum += piece->length;
        CHECK(piece->ground == paving);
        CHECK(piece->length.millimetres() % 1000 == 0);
    }
    CHECK(sum == Length::from_metres(100));
}

TEST_CASE("a segment is not cut beside open ground where pieces would cost more than the whole") {
    const auto is_cut = [](Scenario site) {
        add_area(site, "lawn", AreaUse::open_ground, {box(20, 1, 80, 60)});
        site.rules.open_ground.spacing = Length::from_metres(10);
        return find_segment(open_ground::opened(site), "drive") == nullptr;
    };
    CHECK(is_cut(drive()));
    Scenario ducted = drive();
    ducted.segments[0].duct_room = 1;
    CHECK_FALSE(is_cut(ducted));
    Scenario charged = drive();
    charged.segments[0].charges = {{"crossing", ChargeCategory::crossing, Money::from_minor(1)}};
    CHECK_FALSE(is_cut(charged));
    Scenario bored = drive();
    OpeningMethod bore = bored.grounds[paving].methods[0];
    bore.id = "bore";
    bore.plant_per_metre = UnitPrice::from_money(Money::from_minor(1000));
    bore.set_up = Money::from_minor(100000);
    bored.grounds[paving].methods.push_back(bore);
    CHECK_FALSE(is_cut(bored));
    bored.grounds[paving].methods[1].set_up = Money::from_minor(400000);
    CHECK(is_cut(bored));
}
