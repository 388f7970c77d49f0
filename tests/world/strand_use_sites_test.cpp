// Sites that leave the strand use to the price, against the same sites with each strand use asked for.

#include <algorithm>
#include <map>

#include <doctest/doctest.h>

#include "certificate/certificate.hpp"
#include "certificate/reader.hpp"
#include "certificate/verification.hpp"
#include "certificate/writer.hpp"
#include "strands/strand_need.hpp"
#include "study/study.hpp"
#include "support/effort.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using drawing::MapFamily;

/// A small site with optics of both kinds; in some the one-strand optic does not reach every building.
Scenario random_site(Dice& dice) {
    MapFamily family;
    family.buildings = static_cast<int>(dice.between(2, 5));
    family.places = static_cast<int>(dice.between(family.buildings + 2, 12));
    family.segments = static_cast<int>(dice.between(family.places, 18));
    Scenario site = drawing::random_map(dice, family);
    site.rules.most_enclosures = static_cast<int>(dice.between(1, 2));
    site.digest = "0123456789abcdef";
    const double reach = dice.one_in(4) ? static_cast<double>(dice.between(20, 200)) : 10000;
    OpticProduct bx = drawing::optic("bx", 1000, reach, dice.between(1500, 6000));
    bx.strand_use = StrandUse::bidirectional;
    bx.to_building.wavelength_nm = 1490;
    site.catalogue.optics.push_back(bx);
    for (Building& building : site.buildings)
        building.links[0].count = static_cast<int>(dice.between(1, 4));
    return site;
}

std::vector<LayoutResult> compared(const Scenario& site) {
    Study study = compare_layouts(site, {.layouts = {}, .seconds = 20.0});
    CHECK(study.violations.empty());
    return std::move(study.comparison.layouts);
}

Scenario either(Scenario site) {
    site.rules.either_strand_use = true;
    return site;
}

std::vector<certificate::Verdict> verdicts(const Scenario& site, const std::vector<LayoutResult>& layouts) {
    const Comparison comparison = compare(site, layouts);
    std::vector<certificate::NamedCertificate> read;
    for (const certificate::Certificate& made : certificate::certificates_of(site, comparison)) {
        const std::string text = certificate::to_json(site, made);
        read.push_back({made.layout, certificate::read_certificate(site, "file", text)});
    }
    return certificate::verify(site, read);
}

}  // namespace

TEST_CASE("each layout is the cheaper of its two strand uses, and bounded by the smaller of their bounds") {
    std::map<StrandUse, int> wins;
    for (int round = 0; round < effort(12); ++round) {
        CAPTURE(round);
        Dice dice(8100 + static_cast<unsigned>(round));
        const Scenario site = random_site(dice);
        const auto duplex = compared(settled_on(site, StrandUse::duplex));
        const auto one_strand = compared(settled_on(site, StrandUse::bidirectional));
        const auto both = compared(either(site));
        REQUIRE(both.size() == duplex.size());
        for (std::size_t i = 0; i < both.size(); ++i) {
            CAPTURE(std::string(name_of(both[i].layout)));
            REQUIRE(both[i].other);
            CHECK(both[i].feasible() == (duplex[i].feasible() || one_strand[i].feasible()));
            if (!both[i].feasible()) continue;
            ++wins[both[i].plan->strand_use];
            for (const LayoutResult* each : {&duplex[i], &one_strand[i]}) {
                if (!each->feasible()) continue;
                CHECK(both[i].total <= each->total);
                CHECK(both[i].bound <= each->total);
            }
            if (duplex[i].feasible() && one_strand[i].feasible())
                CHECK(both[i].bound == std::min(duplex[i].bound, one_strand[i].bound));
        }
    }
    CHECK(wins[StrandUse::duplex] > 0);
    CHECK(wins[StrandUse::bidirectional] > 0);
}

TEST_CASE("certificates of both strand uses are read back and proved, whichever was chosen") {
    int impossible = 0;
    for (int round = 0; round < effort(12); ++round) {
        CAPTURE(round);
        Dice dice(8100 + static_cast<unsigned>(round));
        const Scenario site = either(random_site(dice));
        const auto layouts = compared(site);
        for (const LayoutResult& layout : layouts)
            impossible += layout.feasible() && layout.other->impossible ? 1 : 0;
        for (const certificate::Verdict& verdict : verdicts(site, layouts)) {
            CAPTURE(std::string(name_of(verdict.layout)));
            CAPTURE(verdict.faults.empty() ? std::string() : verdict.faults.front());
            CHECK(verdict.proved);
        }
    }
    CHECK(impossible > 0);
}

}  // namespace spadework
