// Real maps, from file to comparison: a college campus, a village, a town and a few houses.
// Map data (c) OpenStreetMap contributors, ODbL 1.0. Prices are invented.

#include <fstream>
#include <sstream>

#include <doctest/doctest.h>

#include "site_file/site_file.hpp"
#include "study/study.hpp"

namespace spadework {
namespace {

const std::string folder = SPADEWORK_SHARED_DIR "/data/maps/";

struct RealMap {
    const char* file;
    const char* hub;  ///< A position near which the hub stands.
    int buildings;    ///< So many, the nearest to the hub.
};

std::string site_on(const RealMap& map) {
    std::ostringstream text;
    text << "format: 1\nsite: Real map, invented prices\ncurrency: EUR\nmap:\n  geojson:\n    file: map.geojson\n"
            "    grounds: {default: verge}\n"
            "    buildings: {property: building, take: all, nearest: "
         << map.buildings << "}\n    cut-off: skip\nhub: {near: " << map.hub << "}\n"
         << R"(grounds:
  verge:
    methods:
      - {id: open cut, kind: open-cut, labour: 0.2, plant: 5, material: 2, reinstatement: 4, depth: 0.6, duct: 1.4}
catalogue:
  cables:
    - {id: c4, strands: 4, price: 0.7, end: 25, step: 5, longest: 4000, diameter: 0.008}
    - {id: c24, strands: 24, price: 1.6, end: 90, step: 5, longest: 4000, diameter: 0.011}
    - {id: c96, strands: 96, price: 4.4, end: 260, step: 5, longest: 4000, diameter: 0.015}
  enclosures:
    - {id: e24, adapters: 24, price: 300, install-hours: 3}
    - {id: e96, adapters: 96, price: 700, install-hours: 5}
  optics: [{id: lx10, standard: 1000BASE-LX10, price: 15}]
  building-gear:
    - {id: converter, kind: media-converter, optic-ports: 1, copper-ports: 1, fastest-rate: 1G, price: 60,
       install-hours: 0.5}
    - {id: switch, kind: ethernet-switch, optic-ports: 2, copper-ports: 8, fastest-rate: 1G, price: 150,
       install-hours: 0.5}
  hub-gear: [{id: h24, optic-ports: 24, fastest-rate: 1G, price: 800, install-hours: 1}]
  patch-cords: [{id: cord, strands: 2, price: 8}]
  splicing: {pigtail: 5, hours-per-splice: 0.15, set-up-hours: 0.75, rate: 72}
labour: {groundworks-rate: 60, installer-rate: 45, mobilisation: 500}
rules: {max-enclosures: 2}
)";
    return text.str();
}

site_file::LoadedSite load(const RealMap& map) {
    const site_file::FileLoader loader = [&](const std::string&) -> site_file::LoadedText {
        std::ifstream in(folder + map.file);
        std::ostringstream text;
        text << in.rdbuf();
        return {text.str(), ""};
    };
    return site_file::read_site({"site.yaml", site_on(map)}, loader);
}

}  // namespace

TEST_CASE("real maps load, connect and compare, and nothing the verifier knows is broken") {
    if (!std::ifstream(folder + "atlanta_tiny_us.geojson")) {
        MESSAGE("skipped: no " << folder);
        return;
    }
    for (const RealMap& map : {RealMap{"atlanta_tiny_us.geojson", "[-84.5637, 33.6372]", 12},
                               RealMap{"rockville_college_us.geojson", "[-77.160, 39.098]", 14},
                               RealMap{"harsdorf_village_de.geojson", "[11.59038, 50.00764]", 20},
                               RealMap{"frederiksted_town_vi.geojson", "[-64.8825, 17.7115]", 30}}) {
        CAPTURE(std::string(map.file));
        const auto site = load(map);
        for (const Diagnostic& diagnostic : site.diagnostics)
            CHECK_MESSAGE(diagnostic.severity != Severity::error, to_text(diagnostic));
        REQUIRE(site.scenario);
        const std::size_t buildings = site.scenario->buildings.size();
        CHECK(buildings > 3);
        StudyOptions options;
        options.seconds = 4;
        const Study study = compare_layouts(*site.scenario, options);
        for (const std::string& violation : study.violations)
            FAIL_CHECK(violation);
        REQUIRE(study.comparison.cheapest);
        CHECK_FALSE(study.comparison.verdict.empty());
        for (const LayoutResult& result : study.comparison.layouts) {
            CAPTURE(std::string(name_of(result.layout)));
            CAPTURE(result.reason);
            REQUIRE(result.feasible());
            CHECK(result.bound <= result.total);
            CHECK(result.plan->links.size() >= buildings);
            MESSAGE(std::string(map.file), ", ", buildings, " buildings, ", std::string(name_of(result.layout)),
                    ": gap ", 100 * result.gap, " %");
        }
    }
}

}  // namespace spadework
