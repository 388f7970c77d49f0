#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/drawing.hpp"
#include "drawing/support/invented_plan.hpp"
#include "drawing/support/picture_checks.hpp"
#include "geometry/geodesic.hpp"
#include "scenario/local_plane.hpp"
#include "support/small_site.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

SvgElement plan_of(const InventedPlan& plan, double width = 960, const std::string& prefix = "") {
    drawing::Frame frame;
    frame.width = width;
    frame.id_prefix = prefix;
    return checked_picture(drawing::plan_svg(plan.scenario, plan.result, frame), prefix);
}

struct LabelBox {
    std::string text;
    SvgBox box;
};

/// Labels as written: a box of paper, then its text.
std::vector<LabelBox> labels_of(const SvgElement& svg) {
    std::vector<LabelBox> labels;
    const SvgElement* group = svg.find("plan-labels");
    REQUIRE(group != nullptr);
    const SvgElement* box = nullptr;
    for (const SvgElement& child : group->children) {
        if (child.name == "rect") box = &child;
        if (child.name != "text") continue;
        REQUIRE(box != nullptr);
        labels.push_back({child.text, shape_box(*box)});
        CHECK_MESSAGE(box_holds(shape_box(*box), text_box(child)), child.text);
    }
    return labels;
}

std::vector<SvgBox> signs_of(const SvgElement& svg) {
    std::vector<SvgBox> signs;
    for (const char* layer : {"plan-buildings", "plan-enclosures", "plan-hub", "plan-handholes"}) {
        const SvgElement* group = svg.find(layer);
        if (group == nullptr) continue;
        for (const SvgElement& child : group->children)
            signs.push_back(shape_box(child));
    }
    return signs;
}

void check_labels_apart(const SvgElement& svg) {
    const std::vector<LabelBox> labels = labels_of(svg);
    const std::vector<SvgBox> signs = signs_of(svg);
    for (std::size_t i = 0; i < labels.size(); ++i) {
        for (std::size_t j = i + 1; j < labels.size(); ++j)
            CHECK_MESSAGE(!boxes_overlap(labels[i].box, labels[j].box), labels[i].text << " | " << labels[j].text);
        for (const SvgBox& sign : signs)
            CHECK_MESSAGE(!boxes_overlap(labels[i].box, sign), labels[i].text);
    }
}

/// The name is on the map, whole or cut short, or in the list of numbers.
bool is_named(const SvgElement& svg, const std::string& name) {
    if (has_text(*svg.find("plan-labels"), name + "\n") || has_text(*svg.find("plan-labels"), name.substr(0, 28)))
        return true;
    const SvgElement* index = svg.find("plan-index");
    return index != nullptr && has_text(*index, name);
}

double middle_x(const SvgBox& box) {
    return (box.left + box.right) / 2;
}
double middle_y(const SvgBox& box) {
    return (box.top + box.bottom) / 2;
}

SvgBox sign_titled(const SvgElement& svg, const std::string& group, const std::string& title) {
    for (const SvgElement& child : svg.find(group)->children) {
        if (child.title() == title) return shape_box(child);
    }
    FAIL("no sign " << title);
    return {};
}

/// Units of the picture for one of the site's units, by its scale bar.
double units_by_scale_bar(const SvgElement& svg) {
    double width = 0;
    double longest = 0;
    const SvgElement* scale = svg.find("plan-scale");
    for (const SvgElement& child : scale->children) {
        if (child.name == "rect") width += child.number("width");
        std::string text = child.text;
        text.erase(std::remove(text.begin(), text.end(), ','), text.end());
        if (child.name == "text") longest = std::max(longest, std::strtod(text.c_str(), nullptr));
    }
    return width / longest;
}

}  // namespace

TEST_CASE("labels overlap neither each other nor a sign at 12, 40 and 150 buildings") {
    for (const int buildings : {1, 12, 40, 150}) {
        for (const LayoutKind layout : {LayoutKind::trunk_one, LayoutKind::home_runs}) {
            for (const double width : {390.0, 960.0}) {
                CAPTURE(buildings);
                CAPTURE(width);
                const InventedPlan plan = grid_plan(buildings, layout, static_cast<unsigned>(buildings));
                const SvgElement svg = plan_of(plan, width);
                check_labels_apart(svg);
                for (const Building& building : plan.scenario.buildings)
                    CHECK_MESSAGE(is_named(svg, building.name), building.name);
            }
        }
    }
}

TEST_CASE("labels stay apart on crowded sites of many shapes") {
    for (unsigned dice = 1; dice <= 8; ++dice) {
        InventedPlan plan = grid_plan(30, LayoutKind::trunk_one, dice);
        for (Place& place : plan.scenario.places)
            place.at = {place.at.x / (1 + dice), place.at.y / (1 + dice % 3)};
        check_labels_apart(plan_of(plan, 320 + 80 * dice));
    }
}

TEST_CASE("at 960 units every building of a site with 150 stands on the map by name or number") {
    const SvgElement svg = plan_of(grid_plan(150, LayoutKind::trunk_one));
    CHECK_FALSE(has_text(svg, " *\n"));
}

TEST_CASE("layers are named by their contents, and only what occurs is there and in the legend") {
    const SvgElement trunk = plan_of(small_plan(LayoutKind::trunk_one), 960, "x-");
    for (const char* layer : {"x-plan-trenches-1-grass", "x-plan-trunks", "x-plan-drops", "x-plan-enclosures",
                              "x-plan-buildings", "x-plan-hub", "x-plan-scale", "x-plan-north", "x-plan-legend"})
        CHECK_MESSAGE(trunk.find(layer) != nullptr, layer);
    for (const char* layer : {"x-plan-home-runs", "x-plan-hops", "x-plan-existing-ducts", "x-plan-pole-lines",
                              "x-plan-areas", "x-plan-unused", "x-plan-index"})
        CHECK_MESSAGE(trunk.find(layer) == nullptr, layer);
    const SvgElement& legend = *trunk.find("x-plan-legend");
    CHECK(has_text(legend, "Trunk cable"));
    CHECK(has_text(legend, "Trench: grass"));
    CHECK_FALSE(has_text(legend, "Home run"));
    const SvgElement ring = plan_of(small_plan(LayoutKind::ring));
    CHECK(ring.find("plan-hops")->children.size() == 2);
    CHECK(ring.find("plan-closing")->children.size() == 1);
    CHECK(ring.find("plan-enclosures") == nullptr);
    CHECK_FALSE(has_text(*ring.find("plan-legend"), "Enclosure"));
    const SvgElement grid = plan_of(grid_plan(40, LayoutKind::home_runs));
    for (const char* layer : {"plan-existing-ducts", "plan-pole-lines", "plan-handholes", "plan-home-runs",
                              "plan-trenches-2-paving", "plan-unused"})
        CHECK_MESSAGE(grid.find(layer) != nullptr, layer);
}

TEST_CASE("every cable and every trench is drawn once and says its facts") {
    const InventedPlan plan = small_plan(LayoutKind::trunk_one);
    const SvgElement svg = plan_of(plan);
    CHECK(svg.find("plan-trunks")->children.size() == 1);
    CHECK(svg.find("plan-drops")->children.size() == 2);
    CHECK(svg.find("plan-trunks")->children[0].title().rfind("trunk-1: cable-12, 12 strands, 100.0 m on the map", 0) ==
          0);
    std::vector<std::string> trenches;
    for (const SvgElement& child : svg.find("plan-trenches-1-grass")->children) {
        if (child.name == "path") trenches.push_back(child.title());
    }
    CHECK(trenches == std::vector<std::string>{"drive: 100.0 m, grass, open-cut, 1 cable",
                                               "lane: 50.0 m, grass, open-cut, 1 cable",
                                               "path: 30.0 m, grass, open-cut, 1 cable"});
    CHECK(svg.find("plan-enclosures")->children[0].title() ==
          "Enclosure at gate: serves 2 buildings, 12 strands in its trunk");
}

TEST_CASE("cables lie beside their trench and beside each other") {
    const SvgElement svg = plan_of(small_plan(LayoutKind::home_runs));
    const SvgElement* runs = svg.find("plan-home-runs");
    REQUIRE(runs->children.size() == 2);
    CHECK(runs->children[0].attribute("d") != runs->children[1].attribute("d"));
    const double hub_y = middle_y(sign_titled(svg, "plan-hub", "Hub: hub"));
    for (const SvgElement& run : runs->children) {
        // The drive leads east: its cables are drawn on the right of their way, so below it.
        const std::string d = run.attribute("d");
        const std::size_t second = d.find('L') + 1;
        const double y = std::strtod(d.c_str() + d.find(' ', second), nullptr);
        CHECK(y > hub_y + 4);
        CHECK(y < hub_y + 12);
    }
}

TEST_CASE("distances in the picture are those of the site by its scale bar, in metres and in feet") {
    InventedPlan plan = small_plan(LayoutKind::home_runs);
    for (const bool feet : {false, true}) {
        plan.scenario.feet = feet;
        const SvgElement svg = plan_of(plan);
        const double apart =
            middle_x(sign_titled(svg, "plan-buildings", "mill")) - middle_x(sign_titled(svg, "plan-hub", "Hub: hub"));
        CHECK(apart / units_by_scale_bar(svg) == doctest::Approx(feet ? 150 / 0.3048 : 150).epsilon(0.001));
        CHECK(has_text(*svg.find("plan-scale"), feet ? " ft" : " m"));
        CHECK(has_text(*svg.find("plan-title-block"), feet ? "590.6 ft dug" : "180.0 m dug"));
        CHECK(middle_y(sign_titled(svg, "plan-buildings", "barn")) >
              middle_y(sign_titled(svg, "plan-hub", "Hub: hub")));
    }
}

TEST_CASE("positions in degrees are drawn to scale, across the 180th meridian as elsewhere") {
    std::vector<std::pair<double, double>> seen;
    for (const double longitude : {10.0, 179.9995}) {
        InventedPlan plan = small_plan(LayoutKind::trunk_one);
        Scenario& site = plan.scenario;
        site.coordinates = CoordinateSystem::wgs84_degrees;
        const LocalPlane plane(CoordinateSystem::wgs84_degrees, {{longitude, 54.0}});
        for (Place& place : site.places)
            place.at = plane.from_plane(place.at);
        for (Segment& segment : site.segments) {
            for (Position& at : segment.polyline)
                at = plane.from_plane(at);
        }
        const SvgElement svg = plan_of(plan);
        const SvgBox mill = sign_titled(svg, "plan-buildings", "mill");
        const SvgBox hub = sign_titled(svg, "plan-hub", "Hub: hub");
        const double true_metres =
            metres_between(site.places[small_site::hub].at, site.places[small_site::mill_place].at, site.coordinates);
        CHECK((middle_x(mill) - middle_x(hub)) / units_by_scale_bar(svg) ==
              doctest::Approx(true_metres).epsilon(0.002));
        seen.emplace_back(middle_x(mill), middle_y(mill));
    }
    CHECK(seen[0].first == doctest::Approx(seen[1].first).epsilon(0.001));
    CHECK(seen[0].second == doctest::Approx(seen[1].second).epsilon(0.001));
}

TEST_CASE("hostile names are shown as text and run nowhere") {
    InventedPlan plan = small_plan(LayoutKind::trunk_one);
    Scenario& site = plan.scenario;
    site.name = hostile_name;
    site.buildings[0].name = hostile_name;
    site.buildings[1].name = std::string(10'000, 'x');
    site.places[small_site::gate].name = "\xD7\x9E\xD7\x98\xD7\x97\xD7\xA0\xD7\x94 12";
    site.grounds[0].name = hostile_name;
    site.segments[0].name = hostile_name;
    for (PlannedCable& cable : plan.result.plan->cables)
        cable.id = hostile_name;
    const std::string text = drawing::plan_svg(site, plan.result, {});
    const SvgElement svg = checked_picture(text);
    CHECK(has_text(*svg.find("plan-labels"), "<script>alert('1')"));
    CHECK(text.find("<script") == std::string::npos);
    CHECK(text.find("\xE2\x80\xAE") == std::string::npos);
    CHECK(has_text(svg, "\\x01\\x1B[31m \\u202E", "title"));
    CHECK(text.size() < 20'000);
}

TEST_CASE("two buildings at one point, and a building at the hub's, are all named") {
    InventedPlan plan = small_plan(LayoutKind::trunk_one);
    plan.scenario.places[small_site::barn_place].at = plan.scenario.places[small_site::mill_place].at;
    const SvgElement svg = plan_of(plan);
    check_labels_apart(svg);
    for (const char* name : {"barn", "mill", "hub", "gate"})
        CHECK(is_named(svg, name));
    InventedPlan one_point = small_plan(LayoutKind::home_runs);
    for (Place& place : one_point.scenario.places)
        place.at = {0, 0};
    for (Segment& segment : one_point.scenario.segments)
        segment.polyline = {{0, 0}, {0, 0}};
    check_labels_apart(plan_of(one_point));
}

TEST_CASE("a layout without a plan shows the site and why") {
    InventedPlan plan = small_plan(LayoutKind::home_runs);
    plan.result.plan.reset();
    plan.result.reason = "the mill is beyond the reach of every optic";
    const SvgElement svg = plan_of(plan);
    CHECK(has_text(*svg.find("plan-title-block"), "the mill is beyond the reach of every optic"));
    CHECK(svg.find("plan-buildings")->children.size() == 2);
    CHECK(svg.find("plan-unused") != nullptr);
    CHECK(svg.find("plan-trenches-1-grass") == nullptr);
}

TEST_CASE("areas are drawn below everything, with their holes, cut to the map") {
    InventedPlan plan = small_plan(LayoutKind::home_runs);
    Area lawn;
    lawn.id = "lawn";
    lawn.rings = {{{10, -20}, {90, -20}, {90, -5}, {10, -5}}, {{20, -15}, {30, -15}, {30, -10}, {20, -10}}};
    Area pond = lawn;
    pond.id = "pond";
    pond.use = AreaUse::obstacle;
    pond.rings = {{{-9000, -9000}, {9000, -9000}, {9000, -25}, {-9000, -25}}};
    Area far = pond;
    far.id = "far";
    far.use = AreaUse::overlay;
    far.rings = {{{8000, 8000}, {9000, 8000}, {9000, 9000}}};
    plan.scenario.areas = {far, lawn, pond};
    const SvgElement svg = plan_of(plan);
    const SvgElement* areas = svg.find("plan-areas");
    REQUIRE(areas != nullptr);
    CHECK(areas->children.size() == 2);
    CHECK(areas->children[0].title() == "lawn");
    const std::string rings = areas->children[0].attribute("d");
    CHECK(std::count(rings.begin(), rings.end(), 'M') == 2);
    const SvgBox pond_box = shape_box(areas->children[1]);
    CHECK(pond_box.left >= 0);
    CHECK(pond_box.right <= 960);
    CHECK(has_text(*svg.find("plan-legend"), "Open ground"));
    CHECK(has_text(*svg.find("plan-legend"), "Obstacle"));
    CHECK_FALSE(has_text(*svg.find("plan-legend"), "terms of its own"));
}

TEST_CASE("lines that merely cross open ground are drawn only where they are used") {
    InventedPlan plan = small_plan(LayoutKind::home_runs);
    small_site::add_segment(plan.scenario, "shortcut", small_site::hub, small_site::barn_place, 104);
    CHECK(plan_of(plan).find("plan-unused") != nullptr);
    for (Segment& segment : plan.scenario.segments)
        segment.area = 0;
    const SvgElement svg = plan_of(plan);
    CHECK(svg.find("plan-unused") == nullptr);
    CHECK(svg.find("plan-trenches-1-grass") != nullptr);
}

TEST_CASE("the description says the plan's figures") {
    const InventedPlan plan = small_plan(LayoutKind::trunk_one);
    const SvgElement svg = plan_of(plan);
    const std::string desc = texts_in(svg, "desc");
    for (const char* part : {"2 buildings", "180.0 m dug", "grass 180.0 m", "1 trunk cable, 2 drops",
                             "Enclosure at gate: serves 2 buildings"})
        CHECK_MESSAGE(desc.find(part) != std::string::npos, part);
}

TEST_CASE("a plan without a bound, as one that was extended, claims none") {
    InventedPlan plan = small_plan(LayoutKind::trunk_one);
    plan.result.bound = Money::from_minor(1);
    CHECK(has_text(*plan_of(plan).find("plan-title-block"), "no plan of this layout costs less"));
    plan.result.bound = Money();
    CHECK_FALSE(has_text(*plan_of(plan).find("plan-title-block"), "no plan of this layout costs less"));
    CHECK(has_text(*plan_of(plan).find("plan-title-block"), "all of it new at today's prices"));
}

TEST_CASE("the same plan draws the same bytes, as a file and inside a page") {
    const InventedPlan plan = grid_plan(40, LayoutKind::trunk_one);
    drawing::Frame frame;
    const std::string inside = drawing::plan_svg(plan.scenario, plan.result, frame);
    CHECK(inside == drawing::plan_svg(plan.scenario, plan.result, frame));
    CHECK(inside.rfind("<svg ", 0) == 0);
    frame.own_file = true;
    CHECK(drawing::plan_svg(plan.scenario, plan.result, frame) ==
          "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + inside);
}

TEST_CASE("any width asked for gives a picture") {
    const InventedPlan plan = small_plan(LayoutKind::trunk_one);
    for (const double width : {-5.0, 0.0, 1.0, 320.0, 2400.0, std::nan(""), 1e300})
        checked_picture(drawing::plan_svg(plan.scenario, plan.result, {width, "", false}));
}
