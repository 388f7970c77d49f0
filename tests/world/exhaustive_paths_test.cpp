// Home runs and the trunk with one enclosure where ducts have little room, poles stand along some segments, ways charge
// passing cables differently, handholes take coils and optics do not reach far: against every combination of paths.

#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "comparison/verification.hpp"
#include "layout/design.hpp"
#include "support/effort.hpp"
#include "world/support/every_path.hpp"
#include "world/support/proof_by_splits.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using drawing::MapFamily;
using own::Cents;

Scenario random_site(Dice& dice) {
    MapFamily family;
    family.places = static_cast<int>(dice.between(4, 6));
    family.segments = static_cast<int>(dice.between(family.places - 1, 7));
    family.buildings = static_cast<int>(dice.between(2, 3));
    family.several_links = dice.one_in(3);
    family.dearest_ground = dice.one_in(2) ? 6000 : 600;
    Scenario site = drawing::random_map(dice, family);
    int pole_lines = 0;
    for (Segment& segment : site.segments) {
        if (dice.one_in(3)) segment.duct_room = static_cast<int>(dice.between(1, 2));
        segment.pole_line = pole_lines < 2 && dice.one_in(4);
        pole_lines += segment.pole_line ? 1 : 0;
    }
    for (Place& place : site.places) {
        if (place.kind == PlaceKind::junction && dice.one_in(2)) place.kind = PlaceKind::handhole;
    }
    for (Ground& ground : site.grounds) {
        ground.methods[0].duct_per_metre = UnitPrice::from_minor(static_cast<double>(dice.between(0, 300)));
        ground.methods[0].pull_hours_per_metre = 0.02;
    }
    site.existing_duct.pull_hours_per_metre = 0.03;
    site.existing_duct.plant_per_metre = UnitPrice::from_minor(dice.one_in(2) ? 0 : 50);
    site.pole_line.pull_hours_per_metre = 0.05;
    site.rules.slack.coil_per_handhole = Length::from_metres(static_cast<double>(dice.between(0, 12)));
    for (CableProduct& cable : site.catalogue.cables)
        cable.longest = Length::from_metres(static_cast<double>(dice.between(80, 400)));
    site.catalogue.optics = {drawing::optic("near", 1000, static_cast<double>(dice.between(60, 200)), 900),
                             drawing::optic("far", 1000, static_cast<double>(dice.between(150, 500)), 6000)};
    return site;
}

/// Cable is most of the cost: sold in long steps, joined often, dear against trenches as short as cheap.
Scenario site_of_dear_cable(Dice& dice) {
    Scenario site = random_site(dice);
    for (Segment& segment : site.segments) {
        segment.duct_room.reset();
        segment.pole_line = false;
        segment.charges.clear();
        if (dice.one_in(3)) segment.length = Length::from_metres(static_cast<double>(dice.between(1, 8)));
    }
    for (CableProduct& cable : site.catalogue.cables) {
        cable.length_step = Length::from_metres(static_cast<double>(dice.between(1, 70)));
        cable.longest = Length::from_metres(static_cast<double>(dice.between(30, 150)));
        cable.price_per_metre = UnitPrice::from_minor(static_cast<double>(dice.between(50, 2000)));
    }
    site.catalogue.optics.front().reach = Length::from_metres(5000);
    return site;
}

struct Tally {
    int sites = 0;
    int without_plan = 0;
    int missed = 0;  ///< A plan exists and none was found.
    int optimal = 0;
    double worst_excess = 0;
    double gaps = 0;
};

void hold(const Scenario& site, LayoutKind kind, const std::optional<Cents>& optimum, Tally& tally) {
    CAPTURE(std::string(name_of(kind)));
    const LayoutResult result = assess(site, design(kind, site, {}));
    ++tally.sites;
    if (!optimum) {
        ++tally.without_plan;
        CHECK_FALSE(result.feasible());
        return;
    }
    CHECK(result.bound.minor() <= *optimum);
    if (!result.feasible()) {
        ++tally.missed;
        return;
    }
    for (const std::string& violation : violations(site, result))
        FAIL_CHECK(violation);
    CHECK(*optimum <= result.total.minor());
    const auto whole = static_cast<double>(*optimum);
    tally.optimal += result.total.minor() == *optimum ? 1 : 0;
    tally.worst_excess = std::max(tally.worst_excess, static_cast<double>(result.total.minor() - *optimum) / whole);
    tally.gaps += static_cast<double>(*optimum - result.bound.minor()) / whole;
}

void report(const char* layout, const Tally& tally) {
    MESSAGE(std::string(layout), ": ", tally.sites, " sites, ", tally.without_plan, " without a plan, ", tally.missed,
            " where none was found, ", tally.optimal, " optimal, worst plan ", 100 * tally.worst_excess,
            " % above, bounds on average ", 100 * tally.gaps / tally.sites, " % below");
}

struct Tallies {
    Tally home_runs;
    Tally trunk;
};

/// Both layouts on so many sites, each made of dice of its own.
Tallies held_on_sites(Scenario (*make_site)(Dice&), int sites, unsigned first_dice) {
    Tallies tallies;
    for (int round = 0; round < sites; ++round) {
        CAPTURE(round);
        Dice dice(first_dice + static_cast<unsigned>(round));
        const Scenario site = make_site(dice);
        hold(site, LayoutKind::home_runs, own::best_home_runs_over_paths(site), tallies.home_runs);
        hold(site, LayoutKind::trunk_one, own::best_trunk_with_one_enclosure_over_paths(site), tallies.trunk);
    }
    report("Home runs", tallies.home_runs);
    report("Trunk, one enclosure", tallies.trunk);
    return tallies;
}

}  // namespace

TEST_CASE("bound, optimum and plan stand in order where ducts fill up, poles help and optics do not reach far") {
    const auto [home_runs, trunk] = held_on_sites(random_site, effort(120), 30'000);
    // Measured on 120 sites: 111 and 113 plans are the optimum, the worst 3.4 and 4.3 % above it. The routes do not
    // know that a longer link may need a dearer optic, nor of joints.
    for (const Tally* tally : {&home_runs, &trunk}) {
        CHECK(tally->optimal * 100 >= (tally->sites - tally->without_plan) * 80);
        CHECK(tally->missed == 0);
        CHECK(tally->worst_excess < 0.10);
    }
}

TEST_CASE("bound, optimum and plan stand in order where cable costs most, in long steps and with many joints") {
    const auto [home_runs, trunk] = held_on_sites(site_of_dear_cable, effort(150), 40'000);
    // Measured on 150 sites: 141 and 143 plans are the optimum, the worst 29 and 11 % above it, for want of a way that
    // saves a joint; bounds 0.5 % below it on average.
    for (const Tally* tally : {&home_runs, &trunk}) {
        CHECK(tally->optimal * 100 >= tally->sites * 85);
        CHECK(tally->missed == 0);
        CHECK(tally->worst_excess < 0.35);
        CHECK(tally->gaps < 0.02 * tally->sites);
    }
}

TEST_CASE("bound, optimum and plan stand in order where plans are split and cable is bought in steps and joined") {
    Tally home_runs;
    int split = 0;
    for (int round = 0; round < effort(60); ++round) {
        CAPTURE(round);
        Dice dice(50'000 + static_cast<unsigned>(round));
        Scenario site = drawing::crossings_site(dice, 3, 3);
        CableProduct& cable = site.catalogue.cables.front();
        cable.length_step = Length::from_metres(static_cast<double>(dice.between(1, 40)));
        if (dice.one_in(2)) cable.longest = Length::from_metres(static_cast<double>(dice.between(90, 260)));
        if (dice.one_in(2)) site.grounds.back().methods[0].pull_hours_per_metre = 0.01;
        hold(site, LayoutKind::home_runs, own::best_home_runs_over_paths(site), home_runs);
        split += own::pieces_proved_by_splits(site, LayoutKind::home_runs);
    }
    report("Home runs across a road", home_runs);
    MESSAGE(split << " took splits");
    CHECK(split > effort(20));
    // Measured on 60 sites: all took splits, 52 plans are the optimum; bounds 0.7 % below it on average.
    CHECK(home_runs.gaps < 0.02 * home_runs.sites);
}

}  // namespace spadework
