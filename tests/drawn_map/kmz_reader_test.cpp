#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"
#include "drawn_map/zip_bytes.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

namespace {

std::string point_kml(const std::string& name) {
    return "<kml><Placemark><name>" + name + "</name><Point><coordinates>1,2</coordinates></Point></Placemark></kml>";
}

std::string linking_kml(const std::vector<std::string>& addresses) {
    std::string text = "<kml><Document>";
    for (const std::string& address : addresses)
        text += "<NetworkLink><Link><href>" + address + "</href></Link></NetworkLink>";
    return text + "</Document></kml>";
}

}  // namespace

TEST_CASE("a KMZ file is read with the files of the archive that it links to, each once") {
    const ReadMap read = read_map(
        "park.kmz",
        zip_bytes({{"files/a.kml", point_kml("a")},
                   {"doc.kml", linking_kml({"files/b.kml", "./files/a.kml#x", "http://a.example/c.kml", "../up.kml"})},
                   {"files/b.kml", linking_kml({"a.kml", "../doc.kml"})},
                   {"files/orphan.kml", point_kml("orphan")},
                   {"files/logo.png", "PNG"},
                   {"files/", ""}}));
    CHECK(read.said().empty());
    REQUIRE(read.map);
    CHECK(read.map->format == "KMZ");
    REQUIRE(read.map->features.size() == 1);
    CHECK(read.map->features[0].name == "a");
    CHECK(read.map->features[0].where.file == "park.kmz/files/a.kml");
    CHECK(left_out(*read.map, "links to other files") == 2);
    CHECK(left_out(*read.map, "KML files that no link leads to") == 1);
    CHECK(left_out(*read.map, "files beside the KML") == 1);
}

TEST_CASE("the first KML file of an archive is its map where none is named doc.kml") {
    const ReadMap read = read_map("park.kmz", zip_bytes({{"x.txt", ""}, {"walks.KML", point_kml("walk")}}));
    REQUIRE(read.map);
    CHECK(read.map->features[0].name == "walk");
}

TEST_CASE("mistakes inside a KMZ file are told with the entry's name") {
    const std::string broken = "<kml>\n<Placemark><Point><coordinates>1,x</coordinates></Point></Placemark></kml>";
    CHECK(read_map("park.kmz", zip_bytes({{"doc.kml", broken}})).said() ==
          "park.kmz/doc.kml:2:34: error: coordinate 'x', which is not a decimal number; expected longitude,latitude or "
          "longitude,latitude,altitude\n");
    CHECK(read_map("park.kmz", zip_bytes({{"doc.kml", std::string(2'000'000, ' ')}})).said() ==
          "park.kmz/doc.kml:1:1: error: an entry that cannot be unpacked: it unpacks to more than 1000000 bytes\n");
}

TEST_CASE("archives of other things are told apart") {
    CHECK(read_map("a.zip", zip_bytes({{"a/paths.shp", ""}})).said().find("a zipped Shapefile") != std::string::npos);
    CHECK(read_map("a.xlsx", zip_bytes({{"xl/workbook.xml", ""}})).said() ==
          "a.xlsx: error: a spreadsheet or document; expected the table saved as CSV\n");
    CHECK(read_map("a.zip", zip_bytes({{"a.geojson", ""}})).said() ==
          "a.zip: error: a zip archive; expected the map in it, unpacked\n");
    CHECK(read_map("a.zip", zip_bytes({{"a.txt", ""}})).said().find("without a map in it") != std::string::npos);
    CHECK(read_map("a.zip", zip_bytes({})).said().find("an empty zip archive") != std::string::npos);
    CHECK(read_map("a.zip", "PK\x03\x04 and no more").said().find("a zip archive that cannot be read") !=
          std::string::npos);
}
