// Real maps, and the same campus in every format: the same lines and buildings within what each format carries.
// Counts and lengths were taken with an independent reader, GDAL 3.6 through its Python module, and a script of ten
// lines over the OSM file.

#include <cmath>

#include <doctest/doctest.h>

#include "drawn_map/coordinate_systems.hpp"
#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

namespace {

constexpr int campus_lines = 252;
constexpr int campus_buildings = 73;
constexpr double campus_metres = 26'506.0;

bool maps_are_there() {
    if (std::filesystem::is_directory(shared_data() / "maps")) return true;
    MESSAGE("skipped: no maps in ", (shared_data() / "maps").string());
    return false;
}

ReadMap read_shared(const std::string& path, const ReadingOptions& options = {}) {
    return read_map(path, bytes_of(shared_data() / "maps" / path), options);
}

std::vector<const Feature*> of_shape(const DrawnMap& map, Shape shape) {
    std::vector<const Feature*> found;
    for (const Feature& feature : map.features) {
        if (feature.shape == shape) found.push_back(&feature);
    }
    return found;
}

/// Every vertex of one within so many metres of the same vertex of the other.
bool nearly_same(const Feature& a, const Feature& b, double metres) {
    if (a.parts.size() != b.parts.size()) return false;
    for (std::size_t part = 0; part < a.parts.size(); ++part) {
        if (a.parts[part].size() != b.parts[part].size()) return false;
        for (std::size_t i = 0; i < a.parts[part].size(); ++i) {
            if (metres_between(a.parts[part][i], b.parts[part][i], CoordinateSystem::wgs84_degrees) > metres)
                return false;
        }
    }
    return true;
}

void check_same_shapes(const DrawnMap& campus, const DrawnMap& other, Shape shape, double metres) {
    const auto expected = of_shape(campus, shape);
    const auto found = of_shape(other, shape);
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < found.size(); ++i)
        CHECK(nearly_same(*expected[i], *found[i], metres));
}

}  // namespace

TEST_CASE("real maps hold the lines, metres and buildings that an independent reader finds") {
    if (!maps_are_there()) return;
    struct Figures {
        const char* file;
        int lines;
        double metres;
        int areas;
    };
    for (const Figures& map : {Figures{"rockville_college_us.geojson", campus_lines, campus_metres, campus_buildings},
                               Figures{"harsdorf_village_de.geojson", 121, 27'600.5, 616},
                               Figures{"frederiksted_town_vi.geojson", 37, 13'025.5, 325},
                               Figures{"atlanta_tiny_us.geojson", 3, 608.7, 18}}) {
        CAPTURE(map.file);
        const ReadMap read = read_shared(map.file);
        CHECK(read.said().empty());
        REQUIRE(read.map);
        CHECK(count_of(*read.map, Shape::line) == map.lines);
        CHECK(count_of(*read.map, Shape::area) == map.areas);
        CHECK(std::abs(metres_of_lines(*read.map) - map.metres) < 0.1);
    }
}

TEST_CASE("the campus is the same in each format that needs no GDAL") {
    if (!maps_are_there()) return;
    const DrawnMap campus = *read_shared("rockville_college_us.geojson").map;
    for (const std::string format : {"kml", "kmz", "gpx"}) {
        CAPTURE(format);
        const ReadMap read = read_shared("formats/rockville." + format);
        CHECK(read.said().empty());
        REQUIRE(read.map);
        constexpr double seven_decimals = 0.02;
        check_same_shapes(campus, *read.map, Shape::line, seven_decimals);
        if (format == "gpx") {
            CHECK(count_of(*read.map, Shape::point) == campus_buildings);
            continue;
        }
        check_same_shapes(campus, *read.map, Shape::area, seven_decimals);
        const auto lines = of_shape(campus, Shape::line);
        const auto found = of_shape(*read.map, Shape::line);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            CHECK(found[i]->id == lines[i]->id);
            for (const auto* key : {"highway", "surface", "bridge", "layer", "footway", "service"})
                CHECK(tag_of(*found[i], key) == tag_of(*lines[i], key));
        }
    }
}

TEST_CASE("the campus as OSM XML holds every line and building of its GeoJSON, vertex by vertex") {
    if (!maps_are_there()) return;
    const DrawnMap campus = *read_shared("rockville_college_us.geojson").map;
    const ReadMap read = read_shared("rockville_college_us.osm");
    REQUIRE(read.map);
    for (const Feature& feature : campus.features) {
        CAPTURE(feature.id);
        const auto same = std::ranges::find(read.map->features, feature.id, &Feature::id);
        REQUIRE(same != read.map->features.end());
        CHECK(same->shape == feature.shape);
        CHECK(same->parts == feature.parts);
        for (const Tag& tag : feature.tags)
            CHECK(tag_of(*same, tag.key) == tag.value);
    }
    // 254 ways with "highway", one of them an area; the 73 ways with "building", and one that a relation draws.
    const auto has = [](Shape shape, std::string_view key) {
        return [=](const Feature& feature) { return feature.shape == shape && !tag_of(feature, key).empty(); };
    };
    CHECK(std::ranges::count_if(read.map->features, has(Shape::line, "highway")) == 253);
    CHECK(std::ranges::count_if(read.map->features, has(Shape::area, "building")) == campus_buildings + 1);
    CHECK(count_of(*read.map, Shape::point) == 219);
    CHECK(left_out(*read.map, "relations that draw nothing") == 12);
}

TEST_CASE("the campus' buildings come from tables of both kinds") {
    if (!maps_are_there()) return;
    const ReadMap plain = read_shared("formats/rockville_buildings.csv");
    const ReadMap german = read_shared("formats/rockville_buildings_excel_de.csv");
    REQUIRE(plain.map);
    REQUIRE(german.map);
    REQUIRE(plain.map->features.size() == campus_buildings);
    REQUIRE(german.map->features.size() == campus_buildings);
    for (std::size_t i = 0; i < campus_buildings; ++i) {
        CHECK(plain.map->features[i].parts == german.map->features[i].parts);
        CHECK(plain.map->features[i].name == german.map->features[i].name);
        CHECK(plain.map->features[i].tags == german.map->features[i].tags);
    }
    CHECK(plain.map->features[0].name == "Robert E. Parilla Performing Arts Center");
    CHECK(plain.map->features[0].parts[0][0] == Position{-77.1569097, 39.097803});
}

TEST_CASE("projected metres are refused with the reason, or converted where a build can and knows what they are in") {
    if (!maps_are_there()) return;
    const std::string unsaid = "formats/rockville_paths_3857_nocrs.geojson";
    const std::string said = "formats/rockville_paths_epsg32618.geojson";
    const ReadMap refused = read_shared(unsaid);
    CHECK_FALSE(refused.map);
    CHECK(refused.diagnostics.size() == 1);
    CHECK(refused.said().find("these look like metres of a projected system") != std::string::npos);
    const ReadMap declared = read_shared(said);
    CHECK(declared.map.has_value() == has_gdal());
    if (!has_gdal()) {
        CHECK(declared.diagnostics.size() == 1);
        CHECK(declared.said().find(":4:8: error: coordinates in 'EPSG:32618'") != std::string::npos);
        return;
    }
    const DrawnMap campus = *read_shared("rockville_college_us.geojson").map;
    check_same_shapes(campus, *declared.map, Shape::line, 0.05);
    ReadingOptions options;
    options.reference_system = "EPSG:3857";
    const ReadMap converted = read_shared(unsaid, options);
    REQUIRE(converted.map);
    check_same_shapes(campus, *converted.map, Shape::line, 0.05);
}

TEST_CASE("GeoPackage, Shapefile and DXF are read with GDAL, and refused with a command without it") {
    if (!maps_are_there()) return;
    ReadingOptions options;
    for (const auto& row :
         {std::pair{"rockville.gpkg",
                    "ogr2ogr -f LIBKML -t_srs EPSG:4326 formats/rockville-wgs84.kml "
                    "formats/rockville.gpkg"},
          std::pair{"rockville_shp_epsg2248_ftUS.zip",
                    "ogr2ogr -f LIBKML -t_srs EPSG:4326 formats/rockville_shp_epsg2248_ftUS-wgs84.kml "
                    "/vsizip/formats/rockville_shp_epsg2248_ftUS.zip"},
          std::pair{"rockville_utm18n.dxf",
                    "ogr2ogr -f LIBKML -t_srs EPSG:4326 -s_srs EPSG:32618 "
                    "formats/rockville_utm18n-wgs84.kml formats/rockville_utm18n.dxf"}}) {
        const std::string path = std::string("formats/") + row.first;
        CAPTURE(path);
        const bool is_drawing = path.ends_with(".dxf");
        options.reference_system = is_drawing ? "EPSG:32618" : "";
        const ReadMap read = read_shared(path, options);
        if (!has_gdal()) {
            CHECK_FALSE(read.map);
            CHECK(read.diagnostics.size() == 1);
            CHECK(read.said().find(row.second) != std::string::npos);
            continue;
        }
        CHECK(read.said().empty());
        REQUIRE(read.map);
        const DrawnMap campus = *read_shared("rockville_college_us.geojson").map;
        check_same_shapes(campus, *read.map, Shape::line, 0.05);
        CHECK(count_of(*read.map, Shape::area) == campus_buildings);
        CHECK(std::abs(metres_of_lines(*read.map) - campus_metres) < 1);
    }
}

TEST_CASE("a drawing that nobody says the system of is read as metres of a plan or not at all") {
    if (!maps_are_there() || !has_gdal()) return;
    CHECK_FALSE(read_shared("formats/rockville_utm18n.dxf").map);
    const ReadMap plan = read_shared("formats/rockville_utm18n.dxf", metres_on_a_plan());
    REQUIRE(plan.map);
    CHECK(plan.map->coordinates == CoordinateSystem::plane_metres);
    CHECK(std::abs(metres_of_lines(*plan.map) - campus_metres) < 2);  // The scale of the projection there.
    // Feet are not taken for metres.
    const ReadMap feet = read_shared("formats/rockville_shp_epsg2248_ftUS.zip", metres_on_a_plan());
    REQUIRE(feet.map);
    CHECK(feet.map->coordinates == CoordinateSystem::wgs84_degrees);
}
