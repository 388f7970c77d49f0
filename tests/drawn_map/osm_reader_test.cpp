#include "drawn_map/osm_reader.hpp"

#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

namespace {

/// Nodes 1 to 9 on a grid of three by three: node 1 at 0, 0; node 2 at 1, 0; node 4 at 0, 1. And four around them:
/// 10 to 13.
std::string nodes() {
    std::string text;
    for (int i = 0; i < 9; ++i)
        text += "<node id='" + std::to_string(i + 1) + "' lon='" + std::to_string(i % 3) + "' lat='" +
                std::to_string(i / 3) + "'/>";
    return text +
           "<node id='10' lon='-5' lat='-5'/><node id='11' lon='5' lat='-5'/><node id='12' lon='5' lat='5'/>"
           "<node id='13' lon='-5' lat='5'/>\n";
}

std::string way(int id, const std::vector<int>& refs, const std::string& tags = "") {
    std::string text = "<way id='" + std::to_string(id) + "'>";
    for (const int ref : refs)
        text += "<nd ref='" + std::to_string(ref) + "'/>";
    return text + tags + "</way>\n";
}

std::string tag(const std::string& key, const std::string& value) {
    return "<tag k='" + key + "' v='" + value + "'/>";
}

std::string multipolygon(int id, const std::vector<std::pair<int, std::string>>& ways, const std::string& tags = "") {
    std::string text = "<relation id='" + std::to_string(id) + "'><tag k='type' v='multipolygon'/>";
    for (const auto& [way, role] : ways)
        text += "<member type='way' ref='" + std::to_string(way) + "' role='" + role + "'/>";
    return text + tags + "</relation>\n";
}

ReadMap read_osm(const std::string& elements) {
    return read_map("town.osm", "<osm version='0.6'>\n" + elements + "</osm>");
}

const std::string building = tag("building", "yes");
const std::string footway = tag("highway", "footway");

using Parts = std::vector<std::vector<Position>>;

}  // namespace

TEST_CASE("tagged nodes are points, ways are lines or areas") {
    const ReadMap read = read_osm(nodes() + "<node id='20' lat='1' lon='2'>" + tag("entrance", "main") + "</node>\n" +
                                  way(1, {1, 2, 5}, footway + tag("name", "Elm walk")) +
                                  way(2, {1, 2, 5, 4, 1}, building) + way(3, {1, 2, 5, 1}, footway));
    CHECK(read.said().empty());
    REQUIRE(read.map);
    CHECK(read.map->format == "OSM XML");
    REQUIRE(read.map->features.size() == 4);
    CHECK(read.map->features[0].id == "node/20");
    CHECK(read.map->features[0].tags == std::vector<Tag>{{"entrance", "main"}});
    const Feature& walk = read.map->features[1];
    CHECK(walk.id == "way/1");
    CHECK(walk.name == "Elm walk");
    CHECK(walk.parts == Parts{{{0, 0}, {1, 0}, {1, 1}}});
    CHECK(walk.where.line == 4);
    CHECK(read.map->features[2].shape == Shape::area);
    CHECK(read.map->features[2].parts == Parts{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}});
    CHECK(read.map->features[3].shape == Shape::line);
}

TEST_CASE("deleted elements are left out") {
    const ReadMap read =
        read_osm(nodes() + "<way id='1' visible='false'/><way id='-2' action='delete'/>" + way(3, {1, 2}, footway));
    REQUIRE(read.map);
    CHECK(read.map->features.size() == 1);
    CHECK(left_out(*read.map, "deleted elements") == 2);
}

TEST_CASE("lines are cut at nodes that the file does not have, and areas with such gaps left out") {
    const ReadMap read =
        read_osm(nodes() + way(1, {1, 2, 99, 3, 6, 98, 9}, footway) + way(2, {1, 2, 99, 4, 1}, building));
    REQUIRE(read.map);
    REQUIRE(read.map->features.size() == 2);
    CHECK(read.map->features[0].parts == Parts{{{0, 0}, {1, 0}}});
    CHECK(read.map->features[1].parts == Parts{{{2, 0}, {2, 1}}});
    CHECK(left_out(*read.map, "lines without length") == 1);
    CHECK(left_out(*read.map, "areas with missing nodes") == 1);
    CHECK(read.said() ==
          "town.osm:3:1: warning: way/1 and 1 more: nodes that the file does not have; lines are cut there, and areas "
          "left out; expected a map with all nodes of its ways\n");
}

TEST_CASE("a multipolygon is put together from ways in any order and direction") {
    const ReadMap read =
        read_osm(nodes() + way(1, {10, 11}) + way(2, {13, 12, 11}) + way(3, {13, 10}) + way(4, {1, 2, 5, 4, 1}) +
                 multipolygon(7, {{1, "outer"}, {4, "inner"}, {2, "outer"}, {3, ""}}, building));
    CHECK(read.said().empty());
    REQUIRE(read.map);
    REQUIRE(read.map->features.size() == 1);
    const Feature& hall = read.map->features[0];
    CHECK(hall.id == "relation/7");
    CHECK(hall.tags == std::vector<Tag>{{"building", "yes"}});
    CHECK(hall.parts == Parts{{{-5, -5}, {5, -5}, {5, 5}, {-5, 5}}, {{0, 0}, {1, 0}, {1, 1}, {0, 1}}});
}

TEST_CASE("each outer ring of a multipolygon is an area of its own with the holes in it") {
    const ReadMap read =
        read_osm(nodes() + way(1, {10, 11, 12, 13, 10}) + way(2, {1, 3, 9, 7, 1}) + way(3, {1, 2, 5, 1}) +
                 multipolygon(7, {{1, "outer"}, {2, "outer"}, {3, "inner"}}, building));
    REQUIRE(read.map);
    REQUIRE(read.map->features.size() == 2);
    CHECK(read.map->features[0].parts.size() == 1);
    CHECK(read.map->features[1].parts.size() == 2);  // The smaller ring around the hole has it.
}

TEST_CASE("a way that its multipolygon already draws is not drawn twice") {
    const std::string square = way(1, {10, 11, 12, 13, 10}, building + tag("source", "survey"));
    CHECK(read_osm(nodes() + square + multipolygon(7, {{1, "outer"}}, building)).map->features.size() == 1);
    // With a fact of its own it is a thing of its own.
    CHECK(read_osm(nodes() + square + multipolygon(7, {{1, "outer"}}, tag("landuse", "grass"))).map->features.size() ==
          2);
    // In the older way of mapping, tags stand on the outer way.
    const ReadMap older =
        read_osm(nodes() + square + way(2, {1, 2, 5, 1}) + multipolygon(7, {{1, "outer"}, {2, "inner"}}));
    REQUIRE(older.map->features.size() == 1);
    CHECK(older.map->features[0].tags[0] == Tag{"building", "yes"});
    CHECK(older.map->features[0].parts.size() == 2);
}

TEST_CASE("a multipolygon that lacks ways is told of and left out") {
    const ReadMap read =
        read_osm(nodes() + way(1, {10, 11, 12}) + multipolygon(7, {{1, "outer"}, {99, "outer"}}, building) +
                 "<relation id='8'><tag k='type' v='route'/></relation>");
    REQUIRE(read.map);
    CHECK(read.map->features.empty());
    CHECK(left_out(*read.map, "areas with missing ways") == 1);
    CHECK(left_out(*read.map, "relations that draw nothing") == 1);
    CHECK(read.said().find("relation/7: ways that make no closed ring") != std::string::npos);
}

TEST_CASE("places beside the references of a way are enough") {
    const ReadMap read =
        read_osm("<way id='1'><nd ref='1' lat='1' lon='2'/><nd ref='2' lat='1' lon='3'/>" + footway + "</way>");
    CHECK(read.map->features[0].parts == Parts{{{2, 1}, {3, 1}}});
}

TEST_CASE("elements that are none of OpenStreetMap's are told with their ids") {
    const ReadMap read = read_osm(
        "<node id='x' lat='1' lon='1'/>\n<node id='5' lat='north' lon='1'/>\n"
        "<way id='6'><nd/></way>");
    CHECK(read.said() ==
          "town.osm:2:1: error: node with id 'x'; expected a whole number\n"
          "town.osm:3:1: error: node/5 with lat 'north' and lon '1'; expected decimal degrees\n"
          "town.osm:4:13: error: nd without ref; expected a whole number\n");
}

TEST_CASE("a relation of more ways than OpenStreetMap takes is refused") {
    std::vector<std::pair<int, std::string>> ways(32'001, {1, "outer"});
    CHECK(read_osm(multipolygon(7, ways)).said() ==
          "town.osm:2:1: error: relation/7 of 32001 ways; expected at most 32000\n");
}

TEST_CASE("OSM change files are refused by name") {
    CHECK(read_map("a.osc", "<osmChange/>").said() ==
          "a.osc: error: a list of changes to OpenStreetMap; expected a map as OSM XML\n");
}
