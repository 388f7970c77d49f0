// Checks of the hub, of copper runs, of attenuators and of how far ducts are filled.

#include <algorithm>

#include <doctest/doctest.h>

#include "catalogue/standard_optics.hpp"
#include "checks/checks.hpp"
#include "rates/duct_fill.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

using small_site::barn;
using small_site::drive;
using small_site::megabits;
using small_site::metres;

/// The only finding of a kind.
Finding only(const Findings& findings, const std::string& kind) {
    const auto is_kind = [&kind](const Finding& finding) { return finding.kind == kind; };
    REQUIRE_MESSAGE(std::count_if(findings.begin(), findings.end(), is_kind) == 1, kind);
    return *std::find_if(findings.begin(), findings.end(), is_kind);
}

bool has(const Findings& findings, const std::string& kind) {
    return std::any_of(findings.begin(), findings.end(), [&kind](const Finding& f) { return f.kind == kind; });
}

/// Both home runs through an existing duct along the drive, of so many millimetres inside.
struct InDuct {
    Scenario site = small_site::site();
    Plan plan;
    explicit InDuct(double inner_mm, std::vector<double> there = {}, double cable_mm = 10) {
        for (CableProduct& cable : site.catalogue.cables)
            cable.diameter_mm = cable_mm;
        site.segments[drive].duct_room = 9;
        site.segments[drive].duct_bore = DuctBore{inner_mm, std::move(there)};
        plan = small_site::home_runs(site);
        for (PlannedCable& cable : plan.cables)
            cable.steps[0].way = 1;
        plan.trenches[0].way = 1;
    }
};

}  // namespace

TEST_CASE("copper of 100 m passes, a decimetre more is an error at its building (POE-L, value from memory)") {
    Scenario site = small_site::site();
    site.buildings[barn].devices[0].copper_length = metres(100);
    CHECK(check(site, small_site::home_runs(site)).empty());
    site.buildings[barn].devices[0].copper_length = metres(100.1);
    const Finding finding = only(check(site, small_site::home_runs(site)), "copper-length");
    CHECK(finding.severity == FindingSeverity::error);
    CHECK(finding.where == "building barn");
    CHECK(finding.what == "camera hangs on 100.1 m of copper, 100.0 m carry it");
    CHECK(finding.measured == doctest::Approx(100.1));
    CHECK(finding.limit == 100);
    site.rules.longest_copper = metres(101);
    CHECK(check(site, small_site::home_runs(site)).empty());
}

TEST_CASE("growth ports are needed beside those in use") {
    Scenario site = small_site::site();
    site.hub.growth_ports = 6;
    CHECK(check(site, small_site::home_runs(site)).empty());  // 2 in use, 6 wanted, core-8 has 8
    site.hub.growth_ports = 7;
    const Finding finding = only(check(site, small_site::home_runs(site)), "hub-ports");
    CHECK(finding.severity == FindingSeverity::error);
    CHECK(finding.what == "9 optic ports are needed, 7 of them for growth, and 8 are there");
    CHECK(finding.measured == 9);
    CHECK(finding.limit == 8);
}

TEST_CASE("ports of hub gear slower than the fastest link carry none of it") {
    Scenario site = small_site::site();
    site.catalogue.hub_gear[0].fastest_rate = megabits(100);
    const Finding finding = only(check(site, small_site::home_runs(site)), "hub-ports");
    CHECK(finding.measured == 2);
    CHECK(finding.limit == 0);
}

TEST_CASE("what stands at the hub needs its copper ports, and those of gear and those already free count") {
    Scenario site = small_site::site();
    site.hub.devices = {{"recorder", 1}, {"server", 2}};
    const Finding finding = only(check(site, small_site::home_runs(site)), "hub-copper-ports");
    CHECK(finding.severity == FindingSeverity::error);
    CHECK(finding.measured == 3);
    CHECK(finding.limit == 0);
    site.hub.free_copper_ports = 1;
    site.catalogue.hub_gear[0].copper_ports = 2;
    CHECK(check(site, small_site::home_runs(site)).empty());
}

TEST_CASE("an uplink as fast as all demand passes; a slower one is a warning with the ratio") {
    Scenario site = small_site::site();
    site.hub.uplink = megabits(2000);
    CHECK(check(site, small_site::home_runs(site)).empty());
    site.hub.uplink = megabits(500);
    const Finding finding = only(check(site, small_site::home_runs(site)), "hub-uplink");
    CHECK(finding.severity == FindingSeverity::warning);
    CHECK(finding.what == "all buildings together ask for 2000 Mbit/s, 4.0 times what the uplink of 500M carries");
    CHECK(finding.measured == 2000);
    CHECK(finding.limit == 500);
}

TEST_CASE("two cables at 31 % of a duct pass and are noted; in one a millimetre narrower they are an error (FILL-1)") {
    // 2 x 10^2 / 0.31 = 25.4^2.
    const InDuct wide(25.401);
    const Finding note = only(check(wide.site, wide.plan), "duct-fill");
    CHECK(note.severity == FindingSeverity::note);
    CHECK(note.where == "segment drive");
    CHECK(note.measured == doctest::Approx(31.0).epsilon(1e-4));
    CHECK(note.limit == 31);
    const InDuct narrow(24.4);
    const Finding error = only(check(narrow.site, narrow.plan), "duct-fill");
    CHECK(error.severity == FindingSeverity::error);
    CHECK(error.measured == doctest::Approx(100 * 200 / (24.4 * 24.4)));
}

TEST_CASE("cables that lie in the duct already take their part of it, and the limit is that for all of them") {
    const InDuct one_there(30, {10});
    const Finding finding = only(check(one_there.site, one_there.plan), "duct-fill");
    CHECK(finding.severity == FindingSeverity::note);
    CHECK(finding.measured == doctest::Approx(100 * 300.0 / 900));
    CHECK(finding.limit == 40);
    const InDuct one_too_many(30, {10, 10});
    CHECK(only(check(one_too_many.site, one_too_many.plan), "duct-fill").severity == FindingSeverity::error);
}

TEST_CASE("three cables in a duct three times as wide as they are may wedge, though the fill passes (FILL-2)") {
    const InDuct three(30, {10});
    const Finding jam = only(check(three.site, three.plan), "duct-jam");
    CHECK(jam.severity == FindingSeverity::warning);
    CHECK(jam.measured == doctest::Approx(3.0));
    CHECK_FALSE(has(check(InDuct(33, {10}).site, InDuct(33, {10}).plan), "duct-jam"));
    CHECK_FALSE(has(check(InDuct(30).site, InDuct(30).plan), "duct-jam"));
}

TEST_CASE("the room that the fill rules leave never lets a plan overfill") {
    for (double inner = 22; inner < 60; inner += 0.7) {
        InDuct duct(inner, {8, 8});
        duct.site.segments[drive].duct_room = room_by_fill(
            *duct.site.segments[drive].duct_bore, thickest_cable_mm(duct.site.catalogue), duct.site.rules.duct_fill, 9);
        if (duct.site.segments[drive].duct_room == 0) continue;  // then it is no way at all
        const Findings findings = check(duct.site, duct.plan);
        if (has(findings, "duct-full")) continue;
        CHECK(only(findings, "duct-fill").severity == FindingSeverity::note);
    }
}

TEST_CASE("an attenuator is noted where it is plugged, with what it is for, and counts in the budget") {
    Scenario site = small_site::site();
    site.catalogue.optics[0] = *standard_optic("10GBASE-ER");
    site.catalogue.attenuators = {{"att-5", "att-5", 5, {}}};
    Plan plan = small_site::home_runs(site);
    for (PlannedLink& link : plan.links) {
        link.attenuator_at_start = 0;
        link.attenuator_at_end = 0;
    }
    const Findings findings = check(site, plan);
    CHECK_FALSE(has_errors(findings));
    REQUIRE(findings.size() == 4);
    CHECK(findings[0].kind == "attenuator");
    CHECK(findings[0].severity == FindingSeverity::note);
    CHECK(findings[0].what.find("att-5 of 5.0 dB goes in front of the receiver at the hub") == 0);
    const LinkBudget budget = link_budget(site, plan.links[0]);
    CHECK(budget.to_hub.attenuator_db == 5);
    const double fibre_db = 0.3 * plan.links[0].glass.metres() / 1000;
    CHECK(budget.to_hub.loss_db == doctest::Approx(fibre_db + 2 * 0.75 + 5));
    CHECK(budget.to_hub.overload_excess_db == doctest::Approx(-fibre_db));
}

TEST_CASE("a link's longest glass is where its loss or its reach ends it") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    CHECK(link_budget(site, plan.links[0]).longest_glass == metres(10000));
    plan.links[0].mated_pairs = 4;
    CHECK(link_budget(site, plan.links[0]).longest_glass == metres(7500));
}

}  // namespace spadework
