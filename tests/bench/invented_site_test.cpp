#include "support/invented_site.hpp"

#include <set>
#include <stdexcept>

#include <doctest/doctest.h>

#include "site_file/site_file.hpp"

namespace spadework::bench {

namespace {

site_file::LoadedSite read(const std::string& text) {
    return site_file::read_site({"invented.yaml", text}, [](const std::string&) {
        return site_file::LoadedText{std::nullopt, "no such file"};
    });
}

/// FNV-1a, to notice a single byte that changed.
std::uint64_t digest(const std::string& text) {
    std::uint64_t hash = 0xCBF29CE484222325;
    for (const char c : text)
        hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3;
    return hash;
}

}  // namespace

TEST_CASE("an invented site has the buildings and segments asked for, and reads without a word") {
    for (const SiteSize& size : {SiteSize{1, 60}, SiteSize{3, 70}, SiteSize{40, 1000}, SiteSize{60, 640},
                                 SiteSize{7, 2001}, SiteSize{150, 5000}}) {
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
            CAPTURE(size.buildings);
            CAPTURE(size.segments);
            CAPTURE(seed);
            const site_file::LoadedSite site = read(invented_site(size, seed));
            CHECK(site.diagnostics.empty());
            REQUIRE(site.scenario);
            CHECK(site.scenario->buildings.size() == static_cast<std::size_t>(size.buildings));
            CHECK(site.scenario->segments.size() == static_cast<std::size_t>(size.segments));
        }
    }
}

TEST_CASE("the largest invented site reads without a word") {
    const site_file::LoadedSite site = read(invented_site({600, 20000}, 1));
    CHECK(site.diagnostics.empty());
    REQUIRE(site.scenario);
    CHECK(site.scenario->buildings.size() == 600);
    CHECK(site.scenario->segments.size() == 20000);
}

TEST_CASE("the same size and seed give the same bytes everywhere, another seed gives another site") {
    const std::string text = invented_site({40, 1000}, 1);
    CHECK(text == invented_site({40, 1000}, 1));
    CHECK(text != invented_site({40, 1000}, 2));
    // Recorded once. It moves only when the generator is changed, and then every recorded figure is out of date.
    CHECK(digest(text) == 15892218300495771651U);
}

TEST_CASE(
    "an invented site has patches of ground, crossings that cost, steps of length and buildings of several links") {
    const site_file::LoadedSite site = read(invented_site({150, 5000}, 1));
    REQUIRE(site.scenario);
    std::set<int> grounds;
    int charged = 0;
    for (const Segment& segment : site.scenario->segments) {
        grounds.insert(segment.ground);
        charged += segment.charges.empty() ? 0 : 1;
    }
    CHECK(grounds.size() >= 6);
    CHECK(charged > 20);
    int several = 0;
    for (const Building& building : site.scenario->buildings)
        several += building.links.front().count > 1 ? 1 : 0;
    CHECK(several >= 5);
    CHECK(site.scenario->catalogue.cables.size() >= 5);
    CHECK(site.scenario->catalogue.enclosures.size() >= 4);
    int places_for_enclosures = 0;
    for (const Place& place : site.scenario->places)
        places_for_enclosures += place.enclosure_allowed ? 1 : 0;
    CHECK(places_for_enclosures > 100);
}

TEST_CASE("a map too small for its buildings is refused") {
    CHECK_THROWS_AS(invented_site({40, least_segments(40) - 1}, 1), std::invalid_argument);
    CHECK_THROWS_AS(invented_site({0, 1000}, 1), std::invalid_argument);
    CHECK(read(invented_site({40, least_segments(40)}, 1)).diagnostics.empty());
}

}  // namespace spadework::bench
