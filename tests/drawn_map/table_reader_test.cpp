#include "drawn_map/table_reader.hpp"

#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

namespace {

ReadMap read_csv(const std::string& text, const ReadingOptions& options = {}) {
    return read_map("houses.csv", text, options);
}

}  // namespace

TEST_CASE("a table of buildings is read, a point a row") {
    const ReadMap read = read_csv("id,Name,use,LAT,Lon\nb1,Mill,farm,48.5,11.25\n\n b2 ,\"Barn, old\",,48.6,11.3\n");
    CHECK(read.said().empty());
    REQUIRE(read.map);
    CHECK(read.map->format == "CSV");
    REQUIRE(read.map->features.size() == 2);
    const Feature& mill = read.map->features[0];
    CHECK(mill.id == "b1");
    CHECK(mill.name == "Mill");
    CHECK(mill.tags == std::vector<Tag>{{"use", "farm"}});
    CHECK(mill.parts == std::vector<std::vector<Position>>{{{11.25, 48.5}}});
    CHECK(mill.where.line == 2);
    const Feature& barn = read.map->features[1];
    CHECK(barn.id == "b2");
    CHECK(barn.name == "Barn, old");
    CHECK(barn.tags.empty());
    CHECK(barn.where.line == 4);
}

TEST_CASE("semicolons with decimal commas, tabs, bars and a line that names the separator are understood") {
    for (const std::string text :
         {"name;lat;lon\r\na;48,5;11,25\r\n", "name\tlat\tlon\na\t48.5\t11.25", "name|lat|lon\na|48,5|11.25\n",
          "sep=;\nname;lat;lon\na;48,5;11,25\n", "\xEF\xBB\xBFname;lat;lon\na;48,5;11,25\n",
          "name,lat,lon\na,\"48,5\",\"11,25\"\n", "name;lat;lon\ra;48,5;11,25\r"}) {
        CAPTURE(text);
        const ReadMap read = read_csv(text);
        REQUIRE(read.map);
        REQUIRE(read.map->features.size() == 1);
        CHECK(read.map->features[0].parts[0][0] == Position{11.25, 48.5});
    }
}

TEST_CASE("columns are known by their names in several languages, or named by options") {
    CHECK(read_csv("Gebäude;Breite;Länge\nMühle;48,5;11\n").map->features[0].name == "Mühle");
    CHECK(read_csv("nom;latitude;longitude\nMoulin;48,5;11\n").map->features[0].name == "Moulin");
    CHECK(read_csv("nombre;latitud;longitud\nMolino;48,5;11\n").map->features[0].name == "Molino");
    ReadingOptions options;
    options.columns = {"wgs_e", "wgs_n", "what", "key"};
    const ReadMap read = read_csv("key,what,name,wgs_n,wgs_e\nk,Mill,other,48.5,11\n", options);
    REQUIRE(read.map);
    CHECK(read.map->features[0].id == "k");
    CHECK(read.map->features[0].name == "Mill");
    CHECK(read.map->features[0].tags == std::vector<Tag>{{"name", "other"}});
    options.columns.x = "wgs_ee";
    CHECK(read_csv("key,what,wgs_n,wgs_e\nk,Mill,48.5,11\n", options).said() ==
          "houses.csv:1:1: error: no column 'wgs_ee'; expected one of 'key', 'what', 'wgs_n', 'wgs_e'; did you mean "
          "'wgs_e'?\n");
}

TEST_CASE("a table of a local plan is read in metres") {
    const ReadMap read = read_csv("name,x,y\na,312.5,-4\n", metres_on_a_plan());
    REQUIRE(read.map);
    CHECK(read.map->coordinates == CoordinateSystem::plane_metres);
    CHECK(read.map->features[0].parts[0][0] == Position{312.5, -4});
    CHECK(read_csv("name,Rechtswert,Hochwert\na,4468503,5333317\n").said().find("metres of a projected system") !=
          std::string::npos);
}

TEST_CASE("a table without a header, or without the columns of a place, says so") {
    CHECK(
        read_csv("Mill,48.5,11\nBarn,48.6,11\n").said() ==
        "houses.csv:1:1: error: a table whose first line holds numbers; expected a first line that names the columns, "
        "such as name;lat;lon\n");
    CHECK(read_csv("name,lat,elevation\n").said() ==
          "houses.csv:1:1: error: no column for longitude among 'name', 'lat', 'elevation'; expected a first line that "
          "names the columns, such as name;lat;lon; or options that say which columns they are\n");
    CHECK_FALSE(read_csv("\n\n").map);
}

TEST_CASE("every wrong cell is told with its line and column") {
    const ReadMap read = read_csv("name,lat,lon\na,north,11\nb,48.5,\n\"c\nd\",48.5,1.2.3\ne,48,11,7\nf,1e999,11\n");
    CHECK_FALSE(read.map);
    CHECK(
        read.said() ==
        "houses.csv:2:3: error: 'north' in column 'lat'; expected a decimal number, such as 48.137 or 48,137\n"
        "houses.csv:3:8: error: nothing in column 'lon'; expected a decimal number, such as 48.137 or 48,137\n"
        "houses.csv:5:9: error: '1.2.3' in column 'lon'; expected a decimal number, such as 48.137 or 48,137\n"
        "houses.csv:6:9: error: a row of 4 cells; expected 3, as in the first line; a cell that holds ',' needs quotes "
        "around it\n"
        "houses.csv:7:3: error: '1e999' in column 'lat'; expected a decimal number, such as 48.137 or 48,137\n");
    CHECK(read_csv("name,lat,lon\n\"a,1,2\n").said().find("2:1: error: a quote that nothing closes") !=
          std::string::npos);
}

TEST_CASE("rows without a place are told of and left out") {
    const ReadMap read = read_csv("name,lat,lon\na,,\nb,48,11,,\n");
    REQUIRE(read.map);
    CHECK(read.map->features.size() == 1);
    CHECK(left_out(*read.map, "rows without a place") == 1);
    CHECK(read.said() ==
          "houses.csv:2:1: warning: a row without a place; it is left out; expected a number in both of its columns\n");
}

TEST_CASE("tables in the encodings of spreadsheets are read") {
    const ReadMap latin = read_csv("name;lat;lon\nM\xFChle \x80;48,5;11\n");
    REQUIRE(latin.map);
    CHECK(latin.map->features[0].name == "Mühle €");
    CHECK(latin.said().find("warning: a text that is not UTF-8; it is read as Windows-1252") != std::string::npos);
    std::string wide = "\xFF\xFE";
    for (const char c : std::string("name\tlat\tlon\nM\xFChle\t48,5\t11\n"))
        (wide += c) += '\0';
    CHECK(read_csv(wide).map->features[0].name == "Mühle");
}
