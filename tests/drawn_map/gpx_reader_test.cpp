#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

TEST_CASE("tracks, routes and waypoints are read") {
    const ReadMap read = read_map("walk.gpx", R"(<?xml version="1.0"?>
<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">
 <metadata><time>2026-01-01T00:00:00Z</time></metadata>
 <wpt lat="2" lon="1"><ele>5</ele><name>Gate</name><desc>Old gate</desc><sym>Flag</sym></wpt>
 <rte><name>Route</name><rtept lat="0" lon="0"/><rtept lat="0" lon="1"><name>turn</name></rtept></rte>
 <trk><name>Track</name><type>walk</type><extensions><x:surface xmlns:x="own">gravel</x:surface></extensions>
  <trkseg><trkpt lat="0" lon="0"><time>t</time></trkpt><trkpt lat="1" lon="0"><ele>3</ele></trkpt></trkseg>
  <trkseg><trkpt lat="2" lon="0"/><trkpt lat="3" lon="0"/></trkseg>
  <trkseg/>
 </trk>
 <trk/>
</gpx>)");
    CHECK(read.said().empty());
    REQUIRE(read.map);
    CHECK(read.map->format == "GPX");
    REQUIRE(read.map->features.size() == 4);
    const Feature& gate = read.map->features[0];
    CHECK(gate.shape == Shape::point);
    CHECK(gate.name == "Gate");
    CHECK(gate.tags == std::vector<Tag>{{"desc", "Old gate"}, {"sym", "Flag"}});
    CHECK(gate.parts == std::vector<std::vector<Position>>{{{1, 2}}});
    CHECK(read.map->features[1].name == "Route");
    const Feature& second = read.map->features[3];
    CHECK(second.name == "Track");
    CHECK(second.tags == std::vector<Tag>{{"type", "walk"}, {"surface", "gravel"}});
    CHECK(second.parts == std::vector<std::vector<Position>>{{{0, 2}, {0, 3}}});
    CHECK(second.where.line == 8);
    CHECK(read.map->left_out ==
          std::map<std::string, int>{
              {"altitudes", 2}, {"features without a place", 2}, {"readings of track points", 1}, {"timestamps", 1}});
}

TEST_CASE("every track point without a place is told of") {
    const ReadMap read = read_map("walk.gpx",
                                  "<gpx version='1.0'>\n<trk><trkseg><trkpt lat='1'/>\n"
                                  "<trkpt lat='1,5' lon='2'/></trkseg></trk></gpx>");
    CHECK_FALSE(read.map);
    CHECK(read.said() ==
          "walk.gpx:2:14: error: trkpt without lon; expected lat and lon in decimal degrees\n"
          "walk.gpx:3:1: error: trkpt with lat '1,5'; expected lat and lon in decimal degrees\n");
}

TEST_CASE("GPX has degrees whatever the options say") {
    const std::string text = "<gpx><wpt lat='2' lon='1'/></gpx>";
    CHECK(read_map("walk.gpx", text, metres_on_a_plan()).map->coordinates == CoordinateSystem::wgs84_degrees);
    CHECK(read_map("walk.gpx", "<gpx><wpt lat='91' lon='1'/></gpx>", metres_on_a_plan()).said().find("outside") !=
          std::string::npos);
}

TEST_CASE("XML of another kind under a name that ends in gpx is refused") {
    CHECK(read_map("walk.gpx", "<tracks/>").said() == "walk.gpx:1:1: error: first element 'tracks'; expected gpx\n");
}
