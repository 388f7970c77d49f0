#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

namespace {

ReadMap read_placemark(const std::string& inside) {
    return read_map("park.kml",
                    "<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Placemark>" + inside + "</Placemark></kml>");
}

using Parts = std::vector<std::vector<Position>>;

}  // namespace

TEST_CASE("a placemark is read with its name, data and folders") {
    const ReadMap read = read_map("park.kml", R"(<?xml version="1.0" encoding="UTF-8"?>
<k:kml xmlns:k="http://www.opengis.net/kml/2.2"><k:Document><k:name>The file</k:name>
 <k:Folder><k:name>Campus</k:name><k:Document><k:name> Paths </k:name>
  <k:Placemark id="p1"><k:name>Elm &amp; <![CDATA[<Oak>]]></k:name><k:styleUrl>#s</k:styleUrl>
   <k:description>line 1
     line 2</k:description>
   <k:ExtendedData>
    <k:Data name="surface"><k:displayName>Surface</k:displayName><k:value>gravel</k:value></k:Data>
    <k:SchemaData schemaUrl="#x"><k:SimpleData name="highway">footway</k:SimpleData></k:SchemaData>
    <o:width xmlns:o="own">2 m</o:width>
   </k:ExtendedData>
   <k:LineString><k:tessellate>1</k:tessellate><k:coordinates>
     1,2,0 1,3,7
   </k:coordinates></k:LineString>
  </k:Placemark></k:Document></k:Folder></k:Document></k:kml>)");
    CHECK(read.said().empty());
    REQUIRE(read.map);
    CHECK(read.map->format == "KML");
    REQUIRE(read.map->features.size() == 1);
    const Feature& walk = read.map->features[0];
    CHECK(walk.id == "p1");
    CHECK(walk.name == "Elm & <Oak>");
    CHECK(walk.tags == std::vector<Tag>{{"folder", "Campus/Paths"},
                                        {"description", "line 1 line 2"},
                                        {"surface", "gravel"},
                                        {"highway", "footway"},
                                        {"width", "2 m"}});
    CHECK(walk.parts == Parts{{{1, 2}, {1, 3}}});
    CHECK(walk.where.line == 4);
    CHECK(walk.where.column == 3);
    CHECK(read.map->left_out == std::map<std::string, int>{{"altitudes", 1}, {"styles", 1}});
}

TEST_CASE("an id among the data of a placemark goes before the one that the file refers to it by") {
    const ReadMap read = read_placemark(
        "<ExtendedData><Data name=\"id\"><value>way/7</value></Data></ExtendedData><Point><coordinates>1,2"
        "</coordinates></Point>");
    CHECK(read.map->features[0].id == "way/7");
}

TEST_CASE("every kind of KML geometry is read") {
    CHECK(read_placemark("<Point><coordinates>1.5,-2e0,3</coordinates></Point>").map->features[0].parts ==
          Parts{{{1.5, -2}}});
    CHECK(read_placemark("<LinearRing><coordinates>0,0 1,0 1,1</coordinates></LinearRing>").map->features[0].parts ==
          Parts{{{0, 0}, {1, 0}, {1, 1}, {0, 0}}});
    const ReadMap polygon = read_placemark(
        "<Polygon><innerBoundaryIs><LinearRing><coordinates>2,1 3,1 3,2 2,1</coordinates></LinearRing>"
        "</innerBoundaryIs><outerBoundaryIs><LinearRing><coordinates>0,0 4,0 4,4 0,0</coordinates></LinearRing>"
        "</outerBoundaryIs></Polygon>");
    CHECK(polygon.map->features[0].parts == Parts{{{0, 0}, {4, 0}, {4, 4}}, {{2, 1}, {3, 1}, {3, 2}}});
    const ReadMap several = read_placemark(
        "<MultiGeometry><Point><coordinates>1,2</coordinates></Point><MultiGeometry><LineString><coordinates>1,2 "
        "3,4</coordinates></LineString></MultiGeometry><Model/></MultiGeometry>");
    CHECK(several.map->features.size() == 2);
    CHECK(left_out(*several.map, "models") == 1);
    const ReadMap track = read_placemark(
        "<gx:MultiTrack><gx:Track><when>2026</when><gx:coord>1 2 3</gx:coord><gx:coord>1 3 0</gx:coord><gx:coord/>"
        "</gx:Track></gx:MultiTrack>");
    CHECK(track.map->features[0].parts == Parts{{{1, 2}, {1, 3}}});
    CHECK(left_out(*track.map, "timestamps") == 1);
    CHECK(left_out(*track.map, "track points without a place") == 1);
}

TEST_CASE("KML is read without the element kml around it, and from older versions") {
    CHECK(read_map("a.kml", "<Placemark><Point><coordinates>1,2</coordinates></Point></Placemark>")
              .map->features.size() == 1);
    CHECK(read_map("a.kml",
                   "<kml xmlns=\"http://earth.google.com/kml/2.0\"><Folder><Placemark><GeometryCollection>"
                   "<Point><coordinates>1,2</coordinates></Point></GeometryCollection></Placemark></Folder>"
                   "</kml>")
              .map->features.size() == 1);
}

TEST_CASE("white space beside commas of coordinates does no harm where it leaves one meaning") {
    CHECK(
        read_placemark("<LineString><coordinates>1, 2 ,0\n3,4,0,</coordinates></LineString>").map->features[0].parts ==
        Parts{{{1, 2}, {3, 4}}});
    CHECK(
        read_placemark("<LineString><coordinates>1,2, 3,4</coordinates></LineString>").said() ==
        "park.kml:2:37: error: a position of 4 numbers; expected longitude,latitude or longitude,latitude,altitude\n");
    CHECK(left_out(*read_placemark("<Point><coordinates>1,2,3,4</coordinates></Point>").map,
                   "further numbers of positions") == 1);
}

TEST_CASE("wrong coordinates are told with their place, all of them") {
    const ReadMap read = read_map("park.kml",
                                  "<kml><Document>\r\n<Placemark><LineString><coordinates>\r\n1,2\r\n1,"
                                  "nan</coordinates></LineString></Placemark>\n"
                                  "<Placemark><Point><coordinates>5</coordinates></Point></Placemark>\n"
                                  "<Placemark><gx:Track><gx:coord>1</gx:coord></gx:Track></Placemark>\n"
                                  "</Document></kml>");
    CHECK_FALSE(read.map);
    CHECK(read.said() ==
          "park.kml:4:3: error: coordinate 'nan', which is not a decimal number; expected longitude,latitude or "
          "longitude,latitude,altitude\n"
          "park.kml:5:32: error: a position of 1 numbers; expected longitude,latitude or longitude,latitude,altitude\n"
          "park.kml:6:22: error: track point '1'; expected longitude latitude altitude\n");
}

TEST_CASE("what a KML file holds beside places is counted") {
    const ReadMap read = read_map("park.kml",
                                  "<kml><Document><Style/><StyleMap/><GroundOverlay/><NetworkLink/>"
                                  "<gx:Tour/><LookAt/><Placemark><name>no place</name></Placemark>"
                                  "<Placemark><Point/></Placemark></Document></kml>");
    REQUIRE(read.map);
    CHECK(read.map->left_out == std::map<std::string, int>{{"features without a place", 1},
                                                           {"geometries without coordinates", 1},
                                                           {"links to other files", 1},
                                                           {"pictures", 1},
                                                           {"styles", 2},
                                                           {"tours", 1},
                                                           {"views", 1}});
    CHECK(read.said() == "park.kml: warning: a map with nothing drawn in it\n");
}

TEST_CASE("XML that breaks off, nests without end or declares entities does no harm") {
    CHECK(read_map("park.kml", "<kml><Document>\n<Placemark></Document></kml>").said().find("park.kml:2:") == 0);
    std::string folders = "<kml>";
    for (int i = 0; i < 100'000; ++i)
        folders += "<Folder>";
    std::string closed = folders;
    for (int i = 0; i < 100'000; ++i)
        closed += "</Folder>";
    CHECK(read_map("park.kml", folders).said().find("text that is not XML") != std::string::npos);
    CHECK(read_map("park.kml", closed + "</kml>").said().find("folders nested more than 100 deep") !=
          std::string::npos);
    const ReadMap entities = read_map(
        "park.kml",
        "<!DOCTYPE kml [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;\">]><kml><Placemark><name>&b;</name>"
        "<Point><coordinates>1,2</coordinates></Point></Placemark></kml>");
    REQUIRE(entities.map);
    CHECK(entities.map->features[0].name == "&b;");
}
