#include "survey/tag_table.hpp"

#include <doctest/doctest.h>

#include "support/drawn_things.hpp"

using namespace spadework::survey;

namespace {

LineMeaning meaning(Tags tags, const std::string& format = "GeoJSON") {
    return meaning_of_line(shipped_table(), line("a", {{0, 0}, {1, 0}}, std::move(tags)), format, "asphalt");
}

}  // namespace

TEST_CASE("a stated surface goes before what the kind of way suggests") {
    const LineMeaning stated = meaning({{"highway", "footway"}, {"surface", "gravel"}});
    CHECK(stated.ground == GroundChoice{"gravel", GroundSource::stated, "surface=gravel"});
    const LineMeaning assumed = meaning({{"highway", "footway"}});
    CHECK(assumed.ground == GroundChoice{"paving", GroundSource::kind, "highway=footway"});
    CHECK(meaning({}).ground == GroundChoice{"asphalt", GroundSource::fallback, ""});
}

TEST_CASE("steps and bridges are dear whatever their surface, and motorways and tunnels are barred with a reason") {
    CHECK(meaning({{"highway", "steps"}, {"surface", "concrete"}}).ground.ground == "steps");
    CHECK(meaning({{"highway", "footway"}, {"bridge", "yes"}, {"surface", "wood"}}).ground.ground == "bridge");
    CHECK(meaning({{"highway", "footway"}, {"bridge", "no"}}).ground.ground == "paving");
    CHECK(meaning({{"highway", "motorway"}}).use == Use::barred);
    CHECK_FALSE(meaning({{"highway", "motorway"}}).reason.empty());
    CHECK(meaning({{"highway", "service"}, {"tunnel", "yes"}}).use == Use::barred);
}

TEST_CASE("fences, streams and rails are no lines to dig along, and lines without tags are") {
    for (const char* tag : {"barrier", "waterway", "railway", "power"})
        CHECK(meaning({{tag, "anything"}}).use == Use::left_out);
    CHECK(meaning({{"waterway", "stream"}, {"tunnel", "culvert"}}).use == Use::left_out);
    CHECK(meaning({}).use == Use::dig);
    CHECK(meaning({{"colour", "red"}}, "KML").use == Use::dig);
    CHECK(meaning({{"colour", "red"}}, "OSM XML").use == Use::left_out);
}

TEST_CASE("areas and points are what the first rule that fits them says") {
    const auto use_of_area = [](Tags tags) {
        const TagRule* rule =
            rule_of_area(shipped_table(), area("a", {{0, 0}, {1, 0}, {0, 1}}, std::move(tags)), "GeoJSON");
        return rule == nullptr ? Use::unsaid : rule->use;
    };
    CHECK(use_of_area({{"building", "church"}}) == Use::building);
    CHECK(use_of_area({{"building", "no"}, {"landuse", "grass"}}) == Use::open_ground);
    CHECK(use_of_area({{"natural", "water"}}) == Use::obstacle);
    CHECK(use_of_area({}) == Use::building);
    CHECK(use_of_area({{"name", "Shed"}, {"folder", "Houses"}}) == Use::building);
    CHECK(use_of_area({{"landuse", "residential"}}) == Use::unsaid);
    const auto use_of_point = [](Tags tags, const std::string& format) {
        const TagRule* rule = rule_of_point(shipped_table(), point("a", 0, 0, std::move(tags)), format);
        return rule == nullptr ? Use::unsaid : rule->use;
    };
    CHECK(use_of_point({{"entrance", "main"}}, "GeoJSON") == Use::entrance);
    CHECK(use_of_point({{"storeys", "3"}}, "CSV") == Use::building);
    CHECK(use_of_point({{"storeys", "3"}}, "GeoJSON") == Use::unsaid);
    CHECK(use_of_point({{"amenity", "bench"}}, "KML") == Use::left_out);
}
