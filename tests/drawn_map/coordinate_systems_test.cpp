#include "drawn_map/coordinate_systems.hpp"

#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

namespace {

std::string with_system(const std::string& crs) {
    return "{\"type\": \"FeatureCollection\",\n\"crs\": " + crs +
           ",\n\"features\": [{\"type\": \"Feature\", \"properties\": {}, \"geometry\": {\"type\": \"LineString\", "
           "\"coordinates\": [[500000, 5000000], [500100, 5000000]]}}]}";
}

}  // namespace

TEST_CASE("a coordinate system is known by each way of writing its code") {
    CHECK(short_system_name("urn:ogc:def:crs:EPSG::32618") == "EPSG:32618");
    CHECK(short_system_name("urn:ogc:def:crs:EPSG:9.9:32618") == "EPSG:32618");
    CHECK(short_system_name("http://www.opengis.net/def/crs/EPSG/0/32618") == "EPSG:32618");
    CHECK(short_system_name(" epsg:32618 ") == "EPSG:32618");
    CHECK(short_system_name("my own") == "my own");
    CHECK(is_wgs84("urn:ogc:def:crs:OGC:1.3:CRS84"));
    CHECK(is_wgs84("urn:ogc:def:crs:EPSG::4326"));
    CHECK_FALSE(is_wgs84("EPSG:14326"));
    CHECK_FALSE(is_wgs84(""));
}

TEST_CASE("the line that converts a file can be pasted into a shell") {
    CHECK(conversion_command("maps/park.gpkg", "", true) ==
          "ogr2ogr -f LIBKML -t_srs EPSG:4326 maps/park-wgs84.kml maps/park.gpkg");
    CHECK(conversion_command("park.json", "EPSG:25832", false) ==
          "ogr2ogr -t_srs EPSG:4326 -s_srs EPSG:25832 park-wgs84.geojson park.json");
    CHECK(conversion_command("my park's.zip", "", true) ==
          "ogr2ogr -f LIBKML -t_srs EPSG:4326 'my park'\\''s-wgs84.kml' '/vsizip/my park'\\''s.zip'");
    CHECK(conversion_command("-t.dxf", "EPSG:1; rm x", true) ==
          "ogr2ogr -f LIBKML -t_srs EPSG:4326 -s_srs 'EPSG:1; rm x' ./-t-wgs84.kml ./-t.dxf");
}

TEST_CASE("a file that names WGS 84 is read") {
    std::string text = with_system(R"({"type": "name", "properties": {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}})");
    CHECK(read_map("a.geojson", text).said().find("look like metres") != std::string::npos);
    text.replace(text.find("[[500000"), std::string("[[500000, 5000000], [500100, 5000000]]").size(),
                 "[[9, 45], [9, 46]]");
    CHECK(read_map("a.geojson", text).map);
    // What the file says goes before what the options say.
    CHECK(read_map("a.geojson", text, metres_on_a_plan()).map->coordinates == CoordinateSystem::wgs84_degrees);
}

TEST_CASE("a file in another system is read only where its positions can be turned into WGS 84") {
    const std::string text = with_system(R"({"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32632"}})");
    const ReadMap read = read_map("a.geojson", text);
    if (has_gdal()) {
        REQUIRE(read.map);
        // Central meridian of UTM zone 32; the latitude by the tables of its projection, to a metre or so.
        CHECK(read.map->features[0].parts[0][0].x == doctest::Approx(9).epsilon(1e-9));
        CHECK(read.map->features[0].parts[0][0].y == doctest::Approx(45.1535).epsilon(1e-4));
        return;
    }
    CHECK_FALSE(read.map);
    CHECK(
        read.said() ==
        "a.geojson:2:8: error: coordinates in 'EPSG:32632'; expected longitude and latitude on WGS 84; this build has "
        "no GDAL to convert it with, so run: ogr2ogr -t_srs EPSG:4326 a-wgs84.geojson a.geojson\n");
    // As metres of a local plan it may be had.
    CHECK(read_map("a.geojson", text, metres_on_a_plan()).map);
}

TEST_CASE("a system given by option is for files that name none and hold no degrees") {
    ReadingOptions options;
    options.reference_system = "EPSG:32632";
    const std::string degrees = R"({"type": "Point", "coordinates": [9, 45]})";
    CHECK(read_map("a.geojson", degrees, options).map->features[0].parts[0][0] == Position{9, 45});
    const ReadMap metres = read_map("a.geojson", R"({"type": "Point", "coordinates": [500000, 5000000]})", options);
    CHECK(metres.map.has_value() == has_gdal());
    if (!has_gdal()) CHECK(metres.said().find("-s_srs EPSG:32632") != std::string::npos);
}
