#include "survey/survey.hpp"

#include <algorithm>
#include <filesystem>
#include <random>

#include <doctest/doctest.h>

#include "drawn_map/reading.hpp"
#include "site_file/site_file.hpp"
#include "support/drawn_things.hpp"
#include "survey/site_writing.hpp"
#include "survey/verification.hpp"

using namespace spadework;
using namespace spadework::survey;

namespace {

SurveyOptions with_hub(const std::string& hub) {
    SurveyOptions options;
    options.hub = hub;
    return options;
}

Survey surveyed(const std::vector<drawn_map::DrawnMap>& maps, const SurveyOptions& options) {
    Diagnostics diagnostics;
    auto survey = survey_maps(maps, shipped_table(), options, diagnostics);
    for (const Diagnostic& diagnostic : diagnostics)
        MESSAGE(to_text(diagnostic));
    REQUIRE(survey);
    CHECK(violations_of(survey->site, survey->findings) == std::vector<std::string>{});
    return std::move(*survey);
}

std::string written(const Survey& survey) {
    SiteHead head;
    head.name = "Test";
    head.made_from = {"a map"};
    head.grounds = shipped("survey/grounds.yaml");
    head.catalogue = shipped("prices/2026.yaml");
    head.labour = shipped("survey/labour.yaml");
    head.rules = shipped("survey/rules.yaml");
    return site_file_text(survey.site, head);
}

/// The site file of a survey, read back without an error.
Scenario read_back(const Survey& survey) {
    const auto loaded = site_file::read_site({"site.yaml", written(survey)}, {});
    for (const Diagnostic& diagnostic : loaded.diagnostics)
        MESSAGE(to_text(diagnostic));
    REQUIRE(loaded.scenario);
    return *loaded.scenario;
}

std::string reason_for_none(const std::vector<drawn_map::DrawnMap>& maps, const SurveyOptions& options) {
    Diagnostics diagnostics;
    CHECK_FALSE(survey_maps(maps, shipped_table(), options, diagnostics));
    REQUIRE_FALSE(diagnostics.empty());
    return diagnostics.front().found;
}

const Tags path = {{"highway", "path"}};

drawn_map::DrawnMap hamlet() {
    auto gate = point("gate", 100, 15, {{"entrance", "main"}});
    return map_of({line("street", {{0, 0}, {60, 0}, {200, 0}}, path), line("lane", {{60, 0}, {60, 80}}, path),
                   line("far", {{0, 500}, {60, 500}}, path), house("hall", 20, 20), house("shop", 100, 20),
                   house("barn", 75, 60), house("hut", 20, 300), gate});
}

/// A map of ../shared/data/maps, or nothing, with a message, where the folder is absent.
std::optional<drawn_map::DrawnMap> real_map(const std::string& name) {
    const std::string file = std::string(SPADEWORK_SHARED_DIR) + "/data/maps/" + name;
    if (!std::filesystem::exists(file)) {
        MESSAGE("skipped: no ", file);
        return std::nullopt;
    }
    Diagnostics diagnostics;
    auto map = drawn_map::read_drawn_map(file, text_of_file(file), {}, diagnostics);
    REQUIRE(map);
    return map;
}

double total_metres(const SurveyFindings& findings) {
    double metres = 0;
    for (const GroundFindings& ground : findings.grounds)
        metres += ground.metres;
    for (const BarredFindings& barred : findings.barred)
        metres += barred.metres;
    for (const LeftOverPart& part : findings.left_over)
        metres += part.metres;
    return metres + findings.metres_barred_apart;
}

}  // namespace

TEST_CASE("buildings join the nearest line over the shortest lateral, to the entrance where one is mapped") {
    const Survey survey = surveyed({hamlet()}, with_hub("hall"));
    REQUIRE(survey.findings.laterals.size() == 3);
    const auto lateral = [&](const std::string& building) {
        return *std::find_if(survey.findings.laterals.begin(), survey.findings.laterals.end(),
                             [&](const LateralFinding& l) { return l.building == building; });
    };
    CHECK(lateral("hall").metres == doctest::Approx(15).epsilon(0.001));
    CHECK(lateral("barn").metres == doctest::Approx(10).epsilon(0.001));
    CHECK(lateral("shop").metres == doctest::Approx(15).epsilon(0.001));
    CHECK(lateral("shop").to_entrance);
    CHECK_FALSE(lateral("barn").to_entrance);
}

TEST_CASE("parts left over and buildings out of reach are told of with their distances") {
    const Survey survey = surveyed({hamlet()}, with_hub("hall"));
    REQUIRE(survey.findings.left_over.size() == 1);
    CHECK(survey.findings.left_over[0].way == "far");
    CHECK(survey.findings.left_over[0].metres == doctest::Approx(60).epsilon(0.001));
    CHECK(survey.findings.left_over[0].metres_away == doctest::Approx(420).epsilon(0.001));
    REQUIRE(survey.findings.cut_off.size() == 1);
    CHECK(survey.findings.cut_off[0].building == "hut");
    CHECK(survey.findings.cut_off[0].metres == doctest::Approx(std::hypot(35.0, 215.0)).epsilon(0.01));
}

TEST_CASE("the site file that is written is read back as the same network") {
    const Survey survey = surveyed({hamlet()}, with_hub("hall"));
    const Scenario scenario = read_back(survey);
    CHECK(scenario.places.size() == survey.site.places.size());
    CHECK(scenario.segments.size() == survey.site.segments.size());
    CHECK(scenario.buildings.size() == 2);
    double metres = 0;
    for (const Segment& segment : scenario.segments)
        metres += segment.length.metres();
    CHECK(metres == doctest::Approx(280 + 15 + 10 + 15).epsilon(0.001));
}

TEST_CASE("a lateral that passes through another building is told of, and a loop is cut in two") {
    const Survey survey = surveyed({map_of({line("street", {{0, 0}, {200, 0}}, path),
                                            line("loop", {{200, 0}, {240, 30}, {260, -10}, {200, 0}}, path),
                                            house("hall", 20, 10), house("front", 100, 10), house("back", 102, 40)})},
                                   with_hub("hall"));
    const auto back = std::find_if(survey.findings.laterals.begin(), survey.findings.laterals.end(),
                                   [](const LateralFinding& l) { return l.building == "back"; });
    CHECK(back->through == "front");
    read_back(survey);
}

TEST_CASE("two buildings at one point of the network get places of their own") {
    const Survey survey =
        surveyed({map_of({line("street", {{0, 0}, {100, 0}}, path), house("hall", 20, 20), house("east", 105, 0),
                          area("north", {{100, 0}, {104, 9}, {96, 9}}, {{"building", "yes"}})})},
                 with_hub("hall"));
    CHECK(survey.site.buildings == 2);
    read_back(survey);
}

TEST_CASE("a hub may be a point beside the lines, and one too far away is an error that says how far") {
    SurveyOptions options;
    options.hub_near = degrees_at(150, 12);
    const Survey survey = surveyed({hamlet()}, options);
    CHECK(survey.site.places.front().id == "hub");
    CHECK(survey.findings.laterals.front().metres == doctest::Approx(12).epsilon(0.001));
    options.hub_near = degrees_at(150, -200);
    CHECK(reason_for_none({hamlet()}, options).find("200 m") != std::string::npos);
}

TEST_CASE("maps without lines, without buildings, or with barred lines alone make no site") {
    CHECK_FALSE(reason_for_none({map_of({house("hall", 0, 0)})}, with_hub("hall")).empty());
    CHECK_FALSE(reason_for_none({}, with_hub("hall")).empty());
    CHECK_FALSE(reason_for_none({map_of({line("a", {{0, 0}, {50, 0}}, path), house("hall", 0, 10)})}, with_hub("hall"))
                    .empty());
    CHECK_FALSE(reason_for_none({map_of({line("a", {{0, 0}, {50, 0}}, {{"highway", "motorway"}}), house("hall", 0, 10),
                                         house("b", 30, 10)})},
                                with_hub("hall"))
                    .empty());
}

TEST_CASE("the nearest buildings are taken where only so many are wanted") {
    SurveyOptions options = with_hub("hall");
    options.nearest = 1;
    const Survey survey = surveyed({hamlet()}, options);
    REQUIRE(survey.site.buildings == 1);
    CHECK(survey.site.places[1].id == "barn");
}

TEST_CASE("open ground and what stands in it are taken when asked for, and read back") {
    auto map = hamlet();
    map.features.push_back(area("lawn", {{65, 5}, {190, 5}, {190, 90}, {65, 90}}, {{"landuse", "grass"}}));
    map.features.push_back(area("pond", {{120, 50}, {140, 50}, {140, 70}}, {{"natural", "water"}}));
    map.features.push_back(area("bow", {{130, 10}, {150, 30}, {150, 10}, {130, 30}}, {{"natural", "water"}}));
    map.features.push_back(area("moor", {{5000, 0}, {5100, 0}, {5000, 90}}, {{"natural", "heath"}}));
    SurveyOptions options = with_hub("hall");
    CHECK(surveyed({map}, options).findings.areas_not_asked_for == 4);
    options.areas = true;
    const Survey survey = surveyed({map}, options);
    CHECK(survey.findings.areas_taken == 4);
    CHECK(survey.findings.areas_broken == std::vector<std::string>{"bow"});
    CHECK(survey.findings.areas_far_away == 1);
    CHECK(read_back(survey).areas.size() == 4);
}

TEST_CASE("features in any order, in one file or several, make the same site") {
    auto map = hamlet();
    const std::string expected = written(surveyed({map}, with_hub("hall")));
    std::mt19937 random(7);
    for (int round = 0; round < 20; ++round) {
        std::shuffle(map.features.begin(), map.features.end(), random);
        const auto middle = map.features.begin() + static_cast<std::ptrdiff_t>(random() % map.features.size());
        CHECK(written(surveyed({map_of({map.features.begin(), middle}), map_of({middle, map.features.end()})},
                               with_hub("hall"))) == expected);
    }
}

TEST_CASE("random tangles of lines always make a site that passes its verification and is read back") {
    std::mt19937 random(11);
    const auto coordinate = [&random] { return static_cast<double>(random() % 41) * 5; };
    for (int round = 0; round < 40; ++round) {
        std::vector<drawn_map::Feature> features = {line("base", {{0, 0}, {200, 0}}, path)};
        for (int i = 0; i < 25; ++i) {
            std::vector<Position> points;
            for (int k = 0; k < 4; ++k)
                points.push_back({coordinate(), coordinate()});
            Tags tags = path;
            if (random() % 5 == 0) tags.push_back({"bridge", "yes"});
            features.push_back(line("line " + std::to_string(i), points, tags));
        }
        for (int i = 0; i < 6; ++i)
            features.push_back(house("house " + std::to_string(i), coordinate(), coordinate() + 3));
        read_back(surveyed({map_of(features)}, with_hub("house 0")));
    }
}

// Lines, parts and crossings counted with a separate script (python3, plain lists of coordinates).
TEST_CASE("the real campus has 252 lines, 26.5 km, 73 buildings, 3 parts and one crossing at different levels") {
    const auto map = real_map("rockville_college_us.geojson");
    if (!map) return;
    const Survey survey = surveyed({*map}, with_hub("Campus Center"));
    CHECK(survey.findings.lines == 252);
    CHECK(survey.findings.metres_drawn == doctest::Approx(26500).epsilon(0.005));
    CHECK(survey.findings.buildings_mapped == 73);
    CHECK(survey.findings.parts == 3);
    CHECK(survey.findings.crossings_joined.empty());
    CHECK(survey.findings.crossings_apart.size() == 1);
    CHECK(is_open_street_map({*map}));
    const double together = total_metres(survey.findings);
    CHECK(together == doctest::Approx(survey.findings.metres_drawn - survey.findings.metres_repeated).epsilon(1e-3));
    read_back(survey);
}

TEST_CASE(
    "the real village has 121 lines, 27.6 km and 5 parts; its motorway bridges cross four times without joining") {
    const auto map = real_map("harsdorf_village_de.geojson");
    if (!map) return;
    const Survey survey = surveyed({*map}, with_hub("Gemeindeverwaltung Harsdorf"));
    CHECK(survey.findings.lines == 121);
    CHECK(survey.findings.metres_drawn == doctest::Approx(27600).epsilon(0.005));
    CHECK(survey.findings.parts == 5);
    CHECK(survey.findings.crossings_apart.size() == 4);
    auto flat = *map;
    for (drawn_map::Feature& feature : flat.features) {
        std::erase_if(feature.tags, [](const drawn_map::Tag& tag) {
            return tag.key == "bridge" || tag.key == "layer" || tag.key == "tunnel";
        });
    }
    CHECK(survey.findings.lines_barred_apart > 0);
    CHECK(total_metres(survey.findings) ==
          doctest::Approx(survey.findings.metres_drawn - survey.findings.metres_repeated).epsilon(1e-3));
    const Survey joined = surveyed({flat}, with_hub("Gemeindeverwaltung Harsdorf"));
    CHECK(joined.findings.parts == 3);
    CHECK(joined.findings.crossings_joined.size() == 4);
    read_back(survey);
}

TEST_CASE("the real town has 37 lines, 13.0 km, 325 buildings, one part and not one stated surface") {
    const auto map = real_map("frederiksted_town_vi.geojson");
    if (!map) return;
    const Survey survey = surveyed({*map}, with_hub("Senate Building"));
    CHECK(survey.findings.lines == 37);
    CHECK(survey.findings.metres_drawn == doctest::Approx(13000).epsilon(0.005));
    CHECK(survey.findings.buildings_mapped == 325);
    CHECK(survey.findings.parts == 1);
    for (const GroundFindings& ground : survey.findings.grounds)
        CHECK(ground.choice.source != GroundSource::stated);
    read_back(survey);
}
