#include <doctest/doctest.h>

#include "site_file/site_texts.hpp"

using namespace spadework;
using namespace spadework::site_file;
using namespace spadework::site_file::testing;

namespace {

/// The small site with areas, a list in YAML.
LoadedSite read_with_areas(const std::string& areas, const std::string& rules = "") {
    return read_text(with(small_site(), "grounds:", "  areas:\n" + areas + "grounds:") + rules);
}

bool says(const LoadedSite& site, const std::string& passage) {
    const bool found = said(site).find(passage) != std::string::npos;
    if (!found) MESSAGE(said(site));
    return found;
}

constexpr const char* square = "border: [[100, 100], [120, 100], [120, 120], [100, 120]]";

std::string open_ground(const std::string& more) {
    return "    - {id: lawn, use: open-ground, ground: grass, " + more + "}\n";
}

}  // namespace

TEST_CASE("areas are read with their border, holes and what they change, and sorted by id") {
    const LoadedSite site = read_with_areas(
        "    - {id: pond, use: obstacle, border: [[200, 0], [210, 0], [210, 10]]}\n"
        "    - {id: park, name: The park, use: overlay, ground: grass, extra-per-length: 4, charges: [{what: permit, "
        "category: permit, amount: 80}], border: [[300, 0], [310, 0], [310, 10]]}\n" +
        open_ground(std::string(square) + ", holes: [[[105, 105], [110, 105], [110, 110]]]"));
    REQUIRE_MESSAGE(site.scenario, said(site));
    const std::vector<Area>& areas = site.scenario->areas;
    REQUIRE(areas.size() == 3);
    CHECK(areas[0].id == "lawn");
    CHECK(areas[0].use == AreaUse::open_ground);
    CHECK(areas[0].rings.size() == 2);
    CHECK(areas[0].rings[1][2] == Position{110, 110});
    REQUIRE(areas[0].ground);
    CHECK(site.scenario->grounds[static_cast<std::size_t>(*areas[0].ground)].id == "grass");
    CHECK(areas[1].name == "The park");
    CHECK(areas[1].extra_per_metre == UnitPrice::from_money(Money::from_minor(400)));
    REQUIRE(areas[1].charges.size() == 1);
    CHECK(areas[1].charges[0].category == ChargeCategory::permit);
    CHECK(areas[1].charges[0].amount == Money::from_minor(8000));
    CHECK(areas[2].use == AreaUse::obstacle);
    CHECK(areas[2].bars_segments);
    CHECK_FALSE(areas[2].ground);
}

TEST_CASE("in feet, borders are in feet and an overlay's extra is a price a foot") {
    const LoadedSite site = read_text(with(
        with(small_site(), "grounds:",
             "  areas:\n    - {id: park, use: overlay, extra-per-length: 3.048, border: [[100, 0], [200, 0], [200, "
             "100]]}\ngrounds:"),
        "currency: EUR", "currency: EUR\nunits: feet"));
    REQUIRE_MESSAGE(site.scenario, said(site));
    CHECK(site.scenario->areas[0].rings[0][0].x == doctest::Approx(30.48));
    CHECK(site.scenario->areas[0].extra_per_metre == UnitPrice::from_money(Money::from_minor(1000)));
}

TEST_CASE("a border may repeat its first corner at the end") {
    const LoadedSite site =
        read_with_areas(open_ground("border: [[100, 100], [120, 100], [120, 120], [100, 120], [100, 100]]"));
    REQUIRE_MESSAGE(site.scenario, said(site));
    CHECK(site.scenario->areas[0].rings[0].size() == 4);
}

TEST_CASE("a border that crosses itself is refused with the place and the two sides") {
    const LoadedSite site = read_with_areas(open_ground("border: [[100, 100], [120, 120], [120, 100], [100, 120]]"));
    CHECK_FALSE(site.scenario);
    CHECK(says(site, "site.yaml:15:59: error: border of area"));
    CHECK(says(site,
               "crosses or touches itself at [110, 110]: the line from corner 1 to corner 2 meets that from corner "
               "3 to corner 4"));
}

TEST_CASE("a border of two corners is refused") {
    CHECK(says(read_with_areas(open_ground("border: [[100, 100], [120, 120], [100, 100]]")),
               "border of area 'lawn' has 2 different corners"));
}

TEST_CASE("a hole outside the border is refused, and so are holes that overlap") {
    CHECK(says(read_with_areas(open_ground(std::string(square) + ", holes: [[[115, 105], [130, 105], [130, 110]]]")),
               "hole 1 of area 'lawn' does not lie inside the border"));
    CHECK(says(read_with_areas(open_ground(std::string(square) +
                                           ", holes: [[[102, 102], [110, 102], [110, 110]], [[105, 103], [112, 103], "
                                           "[112, 110]]]")),
               "hole 2 of area 'lawn' overlaps hole 1"));
}

TEST_CASE("an unknown ground is told with the nearest known one") {
    const LoadedSite site =
        read_with_areas("    - {id: lawn, use: open-ground, ground: gras, " + std::string(square) + "}\n");
    CHECK_FALSE(site.scenario);
    CHECK(says(site, "'gras'"));
    CHECK(says(site, "'grass'"));
}

TEST_CASE("an id given twice is refused") {
    const LoadedSite site = read_with_areas(open_ground(square) + open_ground(square));
    CHECK_FALSE(site.scenario);
    CHECK(says(site, "area 'lawn'"));
}

TEST_CASE("keys that do not fit the use are refused") {
    CHECK(says(read_with_areas("    - {id: a1, use: open-ground, " + std::string(square) + "}\n"),
               "key 'ground' is missing in open ground"));
    CHECK(says(read_with_areas("    - {id: a1, use: obstacle, ground: grass, " + std::string(square) + "}\n"),
               "an obstacle with a ground"));
    CHECK(says(read_with_areas(open_ground("extra-per-length: 3, " + std::string(square))),
               "key 'extra-per-length' in an area that is not an overlay"));
    CHECK(says(read_with_areas(open_ground("bars-segments: false, " + std::string(square))),
               "key 'bars-segments' in an area that is not an obstacle"));
    CHECK(says(read_with_areas("    - {id: a1, use: overlay, " + std::string(square) + "}\n"),
               "an overlay that changes nothing"));
}

TEST_CASE("every problem with areas is told at once") {
    const LoadedSite site = read_with_areas(
        "    - {id: a1, use: meadow, border: [[0, 0], [1, 0]]}\n    - {id: a2, use: overlay, border: 7, holes: 3}\n");
    CHECK(says(site, "meadow"));
    CHECK(says(site, "border"));
    CHECK(says(site, "holes"));
}

TEST_CASE("rules for open ground are read, and have defaults") {
    const LoadedSite plain = read_with_areas(open_ground(square));
    REQUIRE(plain.scenario);
    CHECK(plain.scenario->rules.open_ground.directions == 16);
    CHECK(plain.scenario->rules.open_ground.spacing == Length());
    CHECK(plain.scenario->rules.open_ground.reach == Length::from_metres(3));
    const LoadedSite chosen =
        read_with_areas(open_ground(square), "rules: {open-ground: {spacing: 2.5, directions: 32, reach: 0}}\n");
    REQUIRE_MESSAGE(chosen.scenario, said(chosen));
    CHECK(chosen.scenario->rules.open_ground.directions == 32);
    CHECK(chosen.scenario->rules.open_ground.spacing == Length::from_metres(2.5));
    CHECK(says(read_with_areas(open_ground(square), "rules: {open-ground: {directions: 12}}\n"), "directions is 12"));
}

TEST_CASE("polygons of a GeoJSON map become areas by the value of a property") {
    const std::string map = R"({"type": "FeatureCollection", "features": [
{"type": "Feature", "properties": {}, "geometry": {"type": "LineString", "coordinates": [[10, 50], [10.004, 50]]}},
{"type": "Feature", "id": "way/1", "properties": {"landuse": "grass", "name": "Green"}, "geometry": {"type": "Polygon",
 "coordinates": [[[10, 50.001], [10.001, 50.001], [10.001, 50.002], [10, 50.001]],
                 [[10.0008, 50.0012], [10.0009, 50.0012], [10.0009, 50.0013], [10.0008, 50.0012]]]}},
{"type": "Feature", "id": "way/2", "properties": {"landuse": "grass"}, "geometry": {"type": "Polygon",
 "coordinates": [[[10, 50.001], [10.001, 50.002], [10.001, 50.001], [10, 50.002], [10, 50.001]]]}},
{"type": "Feature", "id": "way/3", "properties": {"building": "yes"}, "geometry": {"type": "Polygon",
 "coordinates": [[[10.001, 50.0001], [10.002, 50.0001], [10.002, 50.0003], [10.001, 50.0001]]]}},
{"type": "Feature", "id": "way/4", "properties": {"building": "no", "landuse": "farm"}, "geometry": {"type": "Polygon",
 "coordinates": [[[10.003, 50.0001], [10.004, 50.0001], [10.004, 50.0003], [10.003, 50.0001]]]}}]})";
    const LoadedSite site =
        read_text(geojson_site("{near: [10, 50]}",
                               "    areas:\n"
                               "      - {property: landuse, values: {grass: {use: open-ground, ground: grass}}}\n"
                               "      - {property: building, values: {'*': {use: obstacle, bars-segments: false}}}\n"
                               "    buildings: {property: building, take: all}\n"),
                  {{"map.geojson", map}});
    REQUIRE_MESSAGE(site.scenario, said(site));
    const std::vector<Area>& areas = site.scenario->areas;
    REQUIRE(areas.size() == 2);
    CHECK(areas[0].id == "way/1");
    CHECK(areas[0].name == "Green");
    CHECK(areas[0].rings.size() == 2);
    CHECK(areas[1].id == "way/3");
    CHECK_FALSE(areas[1].bars_segments);
    CHECK(says(site, "area 'way/2' is left out: its border crosses or touches itself at [10.0005, 50.0015]"));
    REQUIRE(site.scenario->buildings.size() == 1);
    CHECK(site.scenario->buildings[0].id == "way/3");
}
