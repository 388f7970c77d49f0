#include "drawn_map/map_format.hpp"

#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

TEST_CASE("the first element of an XML text is found behind everything that may stand before it") {
    CHECK(root_element("<?xml version=\"1.0\"?>\n<!-- a <b> -->\n<!DOCTYPE gpx [<!ENTITY a \"b\">]>\n<k:kml a='b'>") ==
          "kml");
    CHECK(root_element("<!DOCTYPE osm SYSTEM \"a.dtd\"><osm/>") == "osm");
    CHECK(root_element("  ").empty());
    CHECK(root_element("<!-- never closed").empty());
    CHECK(root_element("<").empty());
}

TEST_CASE("formats are told by content, whatever the file is called") {
    CHECK(format_of_text("a.csv", "{\"type\": \"Feature\"}").kind == MapKind::geojson);
    CHECK(format_of_text("a.txt", "<gpx/>").kind == MapKind::gpx);
    CHECK(format_of_text("a", "<kml/>").kind == MapKind::kml);
    CHECK(format_of_text("a.kml", "<osm/>").kind == MapKind::osm_xml);
    CHECK(format_of_text("a", "name;lat;lon\n").kind == MapKind::table);
    CHECK(format_of_text("a.kml", "not XML").kind == MapKind::kml);
    CHECK(format_of_text("a", "words").kind == MapKind::refused);
    CHECK(format_of_text("plan", "  0\r\nSECTION\r\n").kind == MapKind::by_gdal);
    CHECK(format_of_text("plan", "999\nmade by hand\n0\nSECTION\n").kind == MapKind::by_gdal);
}

TEST_CASE("a file of no use is answered by what it is and what would be right") {
    const auto said = [](const std::string& name, const std::string& bytes) { return read_map(name, bytes).said(); };
    CHECK(said("a.dwg", "AC1032 and so on") ==
          "a.dwg: error: a DWG drawing; expected the drawing saved as DXF, or a map as GeoJSON or KML\n");
    CHECK(said("a.osm.gz", "\x1F\x8B\x08") ==
          "a.osm.gz: error: a file packed with gzip; expected the file unpacked, by gunzip\n");
    CHECK(said("a.pbf", std::string("\0\0\0\x0D\x0A\x09OSMHeader", 15)).find("an OSM PBF file") != std::string::npos);
    CHECK(said("a.kml", "<!doctype html><p>Please log in").find("a web page") != std::string::npos);
    CHECK(said("a.png", "\x89PNG\r\n").find("a picture") != std::string::npos);
    CHECK(said("a.dbf", "\x03").find("a part of a Shapefile") != std::string::npos);
    CHECK(said("a.json", "").find("an empty file") != std::string::npos);
    CHECK(said("a.xml", "<gml/>").find("XML whose first element is 'gml'") != std::string::npos);
    CHECK(said("a.bin", std::string("\x01\x02\0\0\x05", 5)).find("error: a zero byte in a text") != std::string::npos);
    for (const auto* name : {"a.geojson", "a.kml", "a.gpx", "a.osm", "a.csv", "a"})
        CHECK(said(name, " \n").find("an empty file") != std::string::npos);
}
