// Every file of public parser test suites, under every kind of name: a clean error or a clean load.

#include <set>

#include <doctest/doctest.h>

#include "drawn_map/map_texts.hpp"

using namespace spadework;
using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

namespace {

/// Diagnostics that a person can use: each names the file, and none is empty or of two lines.
void check_clean(const ReadMap& read) {
    CHECK(read.map.has_value() == !has_errors(read.diagnostics));
    for (const Diagnostic& diagnostic : read.diagnostics) {
        CHECK_FALSE(diagnostic.where.file.empty());
        CHECK_FALSE(diagnostic.found.empty());
        CHECK(to_text(diagnostic).find('\n') == std::string::npos);
    }
    if (!read.map) return;
    for (const Feature& feature : read.map->features) {
        REQUIRE_FALSE(feature.parts.empty());
        std::set<std::string> keys;
        for (const Tag& tag : feature.tags)
            CHECK(keys.insert(tag.key).second);
        const std::size_t least = feature.shape == Shape::point ? 1 : feature.shape == Shape::line ? 2 : 3;
        for (const auto& part : feature.parts)
            CHECK(part.size() >= least);
    }
}

}  // namespace

TEST_CASE("malformed and odd maps end in a clean error or a clean load") {
    const auto files = files_below(shared_data() / "malformed");
    if (files.empty()) {
        MESSAGE("skipped: no files in ", (shared_data() / "malformed").string());
        return;
    }
    for (const auto& file : files) {
        CAPTURE(file.string());
        const std::string bytes = bytes_of(file);
        check_clean(read_map(file.filename().string(), bytes));
        for (const auto* ending : {".csv", ".kml", ".gpx", ".osm", ".geojson"})
            check_clean(read_map("map" + std::string(ending), bytes, metres_on_a_plan()));
    }
}

TEST_CASE("maps that their test suite calls valid are loaded") {
    const auto files = files_below(shared_data() / "malformed");
    int loaded = 0;
    for (const auto& file : files) {
        const std::string folder = file.parent_path().filename().string();
        if (folder != "valid" && folder != "geojson_dims") continue;
        if (file.extension() != ".geojson") continue;
        CAPTURE(file.string());
        const ReadMap read = read_map(file.filename().string(), bytes_of(file));
        CHECK(read.map);
        CHECK_FALSE(has_errors(read.diagnostics));
        ++loaded;
    }
    if (files.empty()) {
        MESSAGE("skipped: no files in ", (shared_data() / "malformed").string());
        return;
    }
    CHECK(loaded == 38);
}

TEST_CASE("odd KML and GPX is loaded save where coordinates are no numbers") {
    const auto files = files_below(shared_data() / "malformed" / "kml_gpx");
    for (const auto& file : files) {
        CAPTURE(file.string());
        const bool bad = file.stem() == "bad";
        CHECK(read_map(file.filename().string(), bytes_of(file)).map.has_value() == !bad);
    }
    if (files.empty()) MESSAGE("skipped: no files in ", (shared_data() / "malformed").string());
}

TEST_CASE("every beginning of a map ends in a clean error or a clean load") {
    for (const std::string text :
         {R"({"type": "Feature", "properties": {"a": [1, {"b": "\u00e4"}]}, "geometry": {"type": "Polygon",
            "coordinates": [[[0, 0], [1, 0], [1, 1], [0, 0]]]}})",
          "<kml><Placemark><name>a</name><Point><coordinates>1,2</coordinates></Point></Placemark></kml>",
          "<gpx><trk><trkseg><trkpt lat='1' lon='2'/><trkpt lat='1' lon='3'/></trkseg></trk></gpx>",
          "<osm><node id='1' lat='1' lon='2'><tag k='a' v='b'/></node></osm>", "name;lat;lon\n\"a;b\";1,5;2\n"}) {
        for (std::size_t size = 0; size <= text.size(); ++size)
            check_clean(read_map("map", text.substr(0, size)));
    }
}

TEST_CASE("a long text that many parts share does not fill the memory") {
    std::string text = R"({"type": "Feature", "properties": {"note": ")" + std::string(1'000'000, 'x') +
                       R"("}, "geometry": {"type": "MultiPoint", "coordinates": [[0, 0])";
    for (int i = 0; i < 1000; ++i)
        text += ", [0, 0]";
    text += "]}}";
    const ReadMap read = read_map("map.geojson", text);
    CHECK_FALSE(read.map);
    CHECK(read.said() == "map.geojson:1:1: error: names and tags of more than " +
                             std::to_string(50'000'000 + 4 * text.size()) +
                             " bytes in all; expected shorter ones, or several smaller maps\n");
}

TEST_CASE("maps of nonsense end in an error") {
    for (const auto* ending : {".csv", ".kml", ".gpx", ".osm", ".geojson", ".kmz", ""}) {
        const std::string name = "map" + std::string(ending);
        for (const std::string& text :
             {std::string(1'000'000, 'x'), std::string(1'000'000, '<'), std::string(1'000'000, '{'),
              std::string(1'000'000, ';'), std::string(1'000'000, '\xFF'), std::string(1'000'000, '\0')}) {
            const ReadMap read = read_map(name, text);
            check_clean(read);
            CHECK_FALSE(read.map);
        }
    }
}
