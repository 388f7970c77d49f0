// Ranges of maps from GeoJSON and of maps with areas: a site with values set is the site of a file with these numbers.

#include "site_file/moved_figures.hpp"

#include <doctest/doctest.h>

#include "site_file/site_texts.hpp"
#include "site_file/varying_site.hpp"

using namespace spadework;
using namespace spadework::site_file;
using namespace spadework::site_file::testing;

namespace {

/// A street that a side street cuts in two, with a charge, and a hall where an enclosure costs extra.
std::string street_map(const std::string& length, const std::string& charge, const std::string& extra) {
    return R"({"type": "FeatureCollection", "features": [
{"type": "Feature", "id": "street", "properties": {"metres": )" +
           length + R"(, "charges": [{"what": "road permit", "amount": )" + charge +
           R"(}]}, "geometry": {"type": "LineString", "coordinates": [[10, 50], [10.002, 50], [10.004, 50]]}},
{"type": "Feature", "id": "side street", "properties": {}, "geometry": {"type": "LineString",
 "coordinates": [[10.002, 50], [10.002, 50.001]]}},
{"type": "Feature", "properties": {"name": "Hall", "enclosure": {"extra": )" +
           extra + R"(}}, "geometry": {"type": "Point", "coordinates": [9.9998, 50.0001]}},
{"type": "Feature", "properties": {"name": "Shed"}, "geometry": {"type": "Point", "coordinates": [10.0021, 50.001]}}
]})";
}

LoadedSite street(const std::string& length, const std::string& charge, const std::string& extra,
                  const std::string& more = "") {
    return read_text(geojson_site("{place: Hall}", "    buildings: {take: all}\n    length: metres\n" + more),
                     {{"map.geojson", street_map(length, charge, extra)}});
}

/// A lawn of a site whose segments are cut by an overlay, which costs extra and takes a charge.
std::string grove(const std::string& length, const std::string& charge, const std::string& extra,
                  const std::string& survey) {
    std::string text = with(small_site(), "length: 61.5}",
                            "length: " + length + ", charges: [{what: crossing, amount: " + charge + "}]}");
    return with(text, "grounds:\n",
                "  areas:\n    - {id: roots, use: overlay, extra-per-length: " + extra +
                    ", charges: [{what: survey, amount: " + survey +
                    "}], border: [[50, 30], [70, 30], [70, 50], [50, 50]]}\ngrounds:\n");
}

/// All that ranges of a map may move.
void check_same(const Scenario& set, const Scenario& settled) {
    REQUIRE(set.segments.size() == settled.segments.size());
    for (std::size_t s = 0; s < set.segments.size(); ++s) {
        CAPTURE(set.segments[s].id);
        CHECK(set.segments[s].id == settled.segments[s].id);
        CHECK(std::abs((set.segments[s].length - settled.segments[s].length).millimetres()) <= 1);
        REQUIRE(set.segments[s].charges.size() == settled.segments[s].charges.size());
        for (std::size_t c = 0; c < set.segments[s].charges.size(); ++c)
            CHECK(set.segments[s].charges[c].amount == settled.segments[s].charges[c].amount);
    }
    for (std::size_t p = 0; p < set.places.size(); ++p)
        CHECK(set.places[p].enclosure_extra == settled.places[p].enclosure_extra);
    REQUIRE(set.grounds.size() == settled.grounds.size());
    for (std::size_t g = 0; g < set.grounds.size(); ++g) {
        for (std::size_t m = 0; m < set.grounds[g].methods.size(); ++m)
            CHECK(set.grounds[g].methods[m].material_per_metre == settled.grounds[g].methods[m].material_per_metre);
    }
}

}  // namespace

TEST_CASE("a line's own length is shared out among the segments that it is cut into") {
    const LoadedSite site = street("300", "90", "50");
    CHECK(said(site).find("error") == std::string::npos);
    REQUIRE(site.scenario);
    std::int64_t sum = 0;
    for (const Segment& segment : site.scenario->segments) {
        if (segment.id.starts_with("street.")) sum += segment.length.millimetres();
    }
    CHECK(sum == 300'000);
    CHECK_FALSE(site.varying);
}

TEST_CASE("ranges of a GeoJSON map are read, named by their feature and set") {
    const LoadedSite site = street(R"({"low": 260, "likely": 290, "high": 350})", R"({"low": 60, "high": 200})",
                                   R"({"chance": 0.2, "otherwise": 0, "then": 800})");
    CHECK(said(site).find("error") == std::string::npos);
    REQUIRE(site.varying);
    const auto& values = site.varying->values();
    REQUIRE(values.size() == 3);
    CHECK(values[0].key == "map.geojson[street].length");
    CHECK(values[0].unit == "m");
    CHECK(values[1].key == "map.geojson[street].charges[road permit].amount");
    CHECK(values[2].key == "map.geojson[Hall].enclosure.extra");
    CHECK(site.varying->lengths_vary());
    check_same(*site.scenario, *street("290", "130", "0").scenario);
    Scenario scenario = *site.scenario;
    for (const std::vector<std::string>& draw :
         {std::vector<std::string>{"260", "60", "0"}, {"333.375", "171.23", "800"}, {"290", "130", "0"}}) {
        site.varying->set(std::vector<double>{std::stod(draw[0]), std::stod(draw[1]), std::stod(draw[2])}, scenario);
        check_same(scenario, *street(draw[0], draw[1], draw[2]).scenario);
    }
}

TEST_CASE("ranges of segments and overlays of a map with areas are set") {
    const LoadedSite site = read_text(grove("{low: 60, likely: 62, high: 90}", "{low: 100, high: 300}",
                                            "{low: 2, high: 9}", "{low: 0, likely: 40, high: 400}"));
    CHECK(said(site).empty());
    REQUIRE(site.varying);
    REQUIRE(site.varying->values().size() == 4);
    check_same(*site.scenario, *read_text(grove("62", "200", "5.5", "40")).scenario);
    Scenario scenario = *site.scenario;
    const std::vector<std::vector<std::string>> draws = {{"60", "100", "2", "0"}, {"81.5", "233", "8.25", "399"}};
    for (const std::vector<std::string>& draw : draws) {
        site.varying->set(
            std::vector<double>{std::stod(draw[0]), std::stod(draw[1]), std::stod(draw[2]), std::stod(draw[3])},
            scenario);
        check_same(scenario, *read_text(grove(draw[0], draw[1], draw[2], draw[3])).scenario);
    }
}

TEST_CASE("two overlays that are doubted make the ground under both dearer by the sum, ground prices doubted or not") {
    const auto text = [](const std::string& first, const std::string& second, const std::string& material) {
        const std::string ring = ", border: [[50, 30], [70, 30], [70, 50], [50, 50]]}\n";
        return with(with(small_site(), "plant: 4,", "plant: 4, material: " + material + ","), "grounds:\n",
                    "  areas:\n    - {id: a1, use: overlay, extra-per-length: " + first + ring +
                        "    - {id: a2, use: overlay, extra-per-length: " + second + ring + "grounds:\n");
    };
    const LoadedSite site = read_text(text("{low: 1, high: 3}", "{low: 10, high: 30}", "{low: 5, high: 6}"));
    CHECK(said(site).empty());
    REQUIRE(site.varying);
    Scenario scenario = *site.scenario;
    REQUIRE(site.varying->values().size() == 3);
    // In reading order: grounds before areas.
    site.varying->set(std::vector<double>{5.75, 1.25, 28}, scenario);
    check_same(scenario, *read_text(text("1.25", "28", "5.75")).scenario);
}

TEST_CASE("ranges of a map can be set by their keys, and what may not be is told") {
    const LoadedSite site = street(R"({"low": 260, "likely": 290, "high": 350})", R"({"low": 60, "high": 200})",
                                   R"({"low": 0, "high": 9})");
    REQUIRE(site.varying);
    Scenario scenario = *site.scenario;
    CHECK(site.varying->set_keys({{"map.geojson[street].charges[road permit].amount", 77}}, scenario).empty());
    check_same(scenario, *street("290", "77", "4.5").scenario);
    CHECK(site.varying->set_keys({{"map.geojson[street].length", 310}}, scenario).empty());
    check_same(scenario, *street("310", "130", "4.5").scenario);
    const Diagnostics wrong = site.varying->set_keys({{"map.geojson[street].length", -1}}, scenario);
    REQUIRE_FALSE(wrong.empty());
    CHECK(to_text(wrong[0]).find("map.geojson:2:") != std::string::npos);
    CHECK(to_text(wrong[0]).find("would be -1") != std::string::npos);
    const LoadedSite plain = read_text(with(small_site(), "length: 61.5", "length: {low: 60, high: 70}"));
    REQUIRE(plain.varying);
    Scenario listed = *plain.scenario;
    CHECK(plain.varying->set_keys({{"map.segments[j-b].length", 68}}, listed).empty());
    check_same(listed, *read_text(with(small_site(), "length: 61.5", "length: 68")).scenario);
}

TEST_CASE("mistakes in ranges of a GeoJSON map are told with file, line and column") {
    const std::string text = said(street(R"({"low": 400, "likely": 290, "high": 350})", R"({"low": 60})", R"("9")"));
    CHECK(text.find("map.geojson:2:70: error: low 400 is above likely 290") != std::string::npos);
    CHECK(text.find("key 'high' is missing in a range") != std::string::npos);
    CHECK(text.find("map.geojson:5:75: error: extra is '9'") != std::string::npos);
    CHECK(said(street("\"290\"", "90", "0")).find("length is '290', a text in quotes; expected a number") !=
          std::string::npos);
    CHECK(said(street("0", "90", "0")).find("length is '0'; expected a number") != std::string::npos);
    CHECK(said(street("null", "90", "0")).find("error") == std::string::npos);
}

TEST_CASE("a range that would change the map itself is refused") {
    // Beside open ground long segments are cut where it is joined to them, the more often the longer they are.
    const auto lawn = [](const std::string& length) {
        return with(
            with(small_site(), "length: 61.5}", "length: " + length + "}"), "grounds:\n",
            "  areas:\n    - {id: lawn, use: open-ground, ground: grass, border: [[32, 41], [88, 41], [88, 80], "
            "[32, 80]]}\ngrounds:\n");
    };
    const LoadedSite likely = read_text(lawn("62"));
    const LoadedSite high = read_text(lawn("900"));
    REQUIRE(likely.scenario);
    REQUIRE(high.scenario);
    REQUIRE(likely.scenario->segments.size() != high.scenario->segments.size());
    CHECK(
        said(read_text(lawn("{low: 60, likely: 62, high: 900}")))
            .find("site.yaml:13:56: error: map.segments[j-b].length is a range; expected a plain number here: the map "
                  "itself would change with it") != std::string::npos);
}
