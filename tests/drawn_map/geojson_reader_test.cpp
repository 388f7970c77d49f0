#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

namespace {

ReadMap read_geojson_text(const std::string& text, const ReadingOptions& options = {}) {
    return read_map("park.geojson", text, options);
}

std::string line_feature(const std::string& coordinates) {
    return R"({"type": "Feature", "properties": {}, "geometry": {"type": "LineString", "coordinates": )" + coordinates +
           "}}";
}

}  // namespace

TEST_CASE("a GeoJSON feature is read with its tags and its place in the file") {
    const ReadMap read = read_geojson_text(R"({"type": "FeatureCollection", "features": [
 {"type": "Feature", "id": 7, "properties": {"name": "Elm walk", "lit": true, "width": 2.50, "none": null,
   "charges": [{"amount":  5}]},
  "geometry": {"type": "LineString", "coordinates": [[1, 2], [1, 3, 50]]}}]})");
    CHECK(read.said().empty());
    REQUIRE(read.map);
    CHECK(read.map->format == "GeoJSON");
    REQUIRE(read.map->features.size() == 1);
    const Feature& walk = read.map->features[0];
    CHECK(walk.id == "7");
    CHECK(walk.name == "Elm walk");
    CHECK(walk.tags ==
          std::vector<Tag>{{"name", "Elm walk"}, {"lit", "true"}, {"width", "2.50"}, {"charges", "[{\"amount\": 5}]"}});
    CHECK(walk.parts == std::vector<std::vector<Position>>{{{1, 2}, {1, 3}}});
    CHECK(walk.where.line == 2);
    CHECK(walk.where.column == 2);
    CHECK(read.map->left_out == std::map<std::string, int>{{"altitudes", 1}});
}

TEST_CASE("GeoJSON comes as a collection, a feature, a geometry or a sequence of these") {
    CHECK(read_geojson_text(line_feature("[[1, 2], [1, 3]]")).map->features.size() == 1);
    CHECK(read_geojson_text(R"({"type": "Point", "coordinates": [1, 2]})").map->features.size() == 1);
    CHECK(read_geojson_text(line_feature("[[1, 2], [1, 3]]") + "\n" + line_feature("[[1, 2], [1, 3]]") + "\n")
              .map->features.size() == 2);
    CHECK(read_geojson_text("\x1E" + line_feature("[[1, 2], [1, 3]]") + "\n\x1E" + line_feature("[[1, 2], [1, 3]]"))
              .map->features.size() == 2);
}

TEST_CASE("parts of a multiple GeoJSON geometry are features of one id") {
    const ReadMap read = read_geojson_text(R"({"type": "Feature", "id": "a", "properties": null, "geometry":
        {"type": "GeometryCollection", "geometries": [
            {"type": "MultiPoint", "coordinates": [[1, 1], [2, 2]]},
            {"type": "MultiLineString", "coordinates": [[[1, 1], [2, 2]], [[3, 3], [4, 4]]]},
            {"type": "MultiPolygon", "coordinates": [[[[0, 0], [4, 0], [4, 4], [0, 0]],
                                                      [[2, 1], [3, 1], [3, 2], [2, 1]]]]}]}})");
    REQUIRE(read.map);
    CHECK(count_of(*read.map, Shape::point) == 2);
    CHECK(count_of(*read.map, Shape::line) == 2);
    CHECK(count_of(*read.map, Shape::area) == 1);
    for (const Feature& feature : read.map->features)
        CHECK(feature.id == "a");
    CHECK(read.map->features.back().parts ==
          std::vector<std::vector<Position>>{{{0, 0}, {4, 0}, {4, 4}}, {{2, 1}, {3, 1}, {3, 2}}});
}

TEST_CASE("repeated points and lines without length are left out and counted") {
    const ReadMap read = read_geojson_text(R"({"type": "FeatureCollection", "features": [)" +
                                           line_feature("[[1, 2], [1, 2], [1, 3], [1, 3]]") + "," +
                                           line_feature("[[1, 2], [1, 2]]") + "]}");
    REQUIRE(read.map);
    CHECK(read.map->features.size() == 1);
    CHECK(read.map->features[0].parts[0].size() == 2);
    CHECK(left_out(*read.map, "repeated points") == 3);
    CHECK(left_out(*read.map, "lines without length") == 1);
}

TEST_CASE("every mistake in GeoJSON is told at once with its line and column") {
    const ReadMap read = read_geojson_text(R"({"type": "FeatureCollection", "features": [
{"type": "Feature", "geometry": {"type": "Circle", "coordinates": [1, 2]}},
{"type": "Feature", "geometry": {"type": "Point", "coordinates": ["1", 2]}},
{"type": "Feature", "properties": 3, "geometry": {"type": "LineString", "coordinates": [[1, 2]]}},
null,
{"type": "Feature"}]})");
    CHECK_FALSE(read.map);
    CHECK(read.said() ==
          "park.geojson:2:42: error: geometry type 'Circle'; expected Point, LineString, Polygon, MultiPoint, "
          "MultiLineString, MultiPolygon or GeometryCollection\n"
          "park.geojson:3:66: error: position '[\"1\", 2]', which is not two numbers or more; expected [longitude, "
          "latitude] (RFC 7946 section 3.1.1)\n"
          "park.geojson:4:35: error: properties that are not an object; expected an object or null\n"
          "park.geojson:4:88: error: a line of one position; expected at least two (RFC 7946 section 3.1.4)\n"
          "park.geojson:5:1: error: an entry of the features that is not a Feature; expected {\"type\": \"Feature\", "
          "…}\n"
          "park.geojson:6:1: error: a feature without a geometry; expected \"geometry\": an object or null\n");
}

TEST_CASE("text that breaks off or is no JSON is told where it stops") {
    CHECK(read_geojson_text("{\"type\":\n \"FeatureColl").said().find("park.geojson:2:") == 0);
    CHECK(read_geojson_text("{\"a\": 1e999}").said().find("number overflow") != std::string::npos);
    CHECK(read_geojson_text("{\"type\": \"Point\", \"coordinates\": [1, 2]} x").said() ==
          "park.geojson:1:42: error: text behind the end of the JSON value; expected one value, or a sequence of "
          "objects\n");
    const std::string deep(100'000, '[');
    CHECK(read_geojson_text("{\"type\": " + deep).said().find("nested more than 100 deep") != std::string::npos);
}

TEST_CASE("metres are never read as degrees") {
    const std::string projected = line_feature("[[313198.1, 4330288.6],\n[313229.7, 4330213.0]]");
    const ReadMap read = read_geojson_text(projected);
    CHECK_FALSE(read.map);
    CHECK(read.said() ==
          "park.geojson:1:90: error: position 313198.1, 4330288.6 and 1 more are outside longitude and latitude: these "
          "look like metres of a projected system; expected longitude from -180 to 180 and latitude from -90 to 90, in "
          "degrees on WGS 84; with the number of the system that the map is drawn in, run: ogr2ogr -t_srs EPSG:4326 "
          "-s_srs EPSG:NUMBER park-wgs84.geojson park.geojson\n");

    const ReadMap plan = read_geojson_text(projected, metres_on_a_plan());
    REQUIRE(plan.map);
    CHECK(plan.map->coordinates == CoordinateSystem::plane_metres);
    CHECK(plan.map->features[0].parts[0][0] == Position{313198.1, 4330288.6});

    CHECK(read_geojson_text(line_feature("[[48.1, 111.5], [48.2, 111.6]]")).said().find("look exchanged") !=
          std::string::npos);
    CHECK(read_geojson_text(line_feature("[[0, 0], [1e9, 0]]"), metres_on_a_plan()).said().find("too far") !=
          std::string::npos);
}

TEST_CASE("a ring that is not closed is closed and told of") {
    const ReadMap read = read_geojson_text(R"({"type": "Polygon", "coordinates": [[[0, 0], [1, 0], [1, 1], [0, 1]]]})");
    REQUIRE(read.map);
    CHECK(read.map->features[0].parts[0].size() == 4);
    CHECK(read.said().find("warning: a ring that does not end where it begins") != std::string::npos);
    CHECK_FALSE(read_geojson_text(R"({"type": "Polygon", "coordinates": [[[0, 0], [1, 0], [0, 0]]]})").map);
}

TEST_CASE("names come as one line without control characters") {
    const ReadMap read = read_geojson_text(
        R"({"type": "Feature", "properties": {"name": " A\u0007b\n c\u0085 "},
            "geometry": {"type": "Point", "coordinates": [1, 2]}})");
    REQUIRE(read.map);
    CHECK(read.map->features[0].name == "Ab c");
    CHECK(left_out(*read.map, "control characters") == 4);  // In the name, and in the tag that holds it.
}

TEST_CASE("no more than a thousand problems are listed") {
    std::string text = R"({"type": "FeatureCollection", "features": [)";
    for (int i = 0; i < 1200; ++i)
        text += "7,";
    const ReadMap read = read_geojson_text(text + "7]}");
    CHECK(read.diagnostics.size() == 1001);
    CHECK(read.diagnostics.back().found == "201 more problems, not listed");
}
