// Every layout of small sites against an exhaustive solver of separate simple code that prices with code of its own:
// bound <= optimum <= plan, and how often the plan is the optimum.

#include <map>

#include <doctest/doctest.h>

#include "study/study.hpp"
#include "support/effort.hpp"
#include "world/support/every_trench_set.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using drawing::MapFamily;

const std::vector<LayoutKind> every_layout = {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::trunk,
                                              LayoutKind::mixed, LayoutKind::daisy_chain};

struct Tally {
    int sites = 0;
    int optimal = 0;
    int infeasible = 0;
    double worst_excess = 0;  ///< Of a plan over the optimum, as a share.
    double gaps = 0;          ///< Of bounds below the optimum, summed.
};

void hold_against_optimum(const Scenario& site, std::map<LayoutKind, Tally>& tallies,
                          const std::vector<LayoutKind>& layouts = every_layout) {
    const auto optima = own::optima_over_trench_sets(site);
    StudyOptions options;
    options.layouts = layouts;
    const Study study = compare_layouts(site, options);
    for (const std::string& violation : study.violations)
        FAIL_CHECK(violation);
    for (const LayoutResult& result : study.comparison.layouts) {
        const auto& optimum = optima.at(result.layout);
        CAPTURE(std::string(name_of(result.layout)));
        CAPTURE(result.reason);
        REQUIRE(result.feasible() == optimum.has_value());
        Tally& tally = tallies[result.layout];
        ++tally.sites;
        if (!optimum) {
            ++tally.infeasible;
            continue;
        }
        CHECK(result.bound.minor() <= *optimum);
        CHECK(*optimum <= result.total.minor());
        tally.optimal += result.total.minor() == *optimum ? 1 : 0;
        const auto share = [&](std::int64_t over) { return static_cast<double>(over) / static_cast<double>(*optimum); };
        tally.worst_excess = std::max(tally.worst_excess, share(result.total.minor() - *optimum));
        tally.gaps += share(*optimum - result.bound.minor());
    }
}

void report(const std::map<LayoutKind, Tally>& tallies) {
    for (const auto& [layout, tally] : tallies) {
        MESSAGE(std::string(name_of(layout)), ": ", tally.sites, " sites, ", tally.infeasible, " without a plan, ",
                tally.optimal, " optimal, worst plan ", 100 * tally.worst_excess, " % above, bounds on average ",
                100 * tally.gaps / tally.sites, " % below");
    }
}

/// Prices, steps, rules and work that do not come out even, and every feature that keeps a cable's price growing with
/// its length.
void make_awkward(Dice& dice, Scenario& site) {
    const auto price = [&](std::int64_t from, std::int64_t to) {
        return UnitPrice::from_thousandths(dice.between(from, to));
    };
    for (CableProduct& cable : site.catalogue.cables) {
        cable.price_per_metre = price(20'000, 900'000);
        cable.factory_end_price = price(0, 4'000'000);
        cable.length_step = Length::from_metres(static_cast<double>(dice.one_in(2) ? 1 : dice.between(5, 25)));
        cable.longest = Length::from_metres(static_cast<double>(dice.between(60, 400)));
    }
    for (Ground& ground : site.grounds) {
        OpeningMethod& method = ground.methods[0];
        method.labour_hours_per_metre = static_cast<double>(dice.between(0, 300)) / 1000.0;
        method.duct_per_metre = UnitPrice::from_thousandths(77'777);
        method.pull_hours_per_metre = 0.0123;
        method.set_up = Money::from_minor(dice.between(0, 20'000));
    }
    site.rules.termination = dice.one_in(2) ? Termination::factory : Termination::spliced;
    site.rules.slack = {Length::from_metres(1.25), Length::from_metres(3), Length(),
                        Percent::from_thousandths(dice.between(0, 7'777))};
    site.rules.spare = {Percent::from_percent(10), static_cast<int>(dice.between(0, 2)),
                        static_cast<int>(dice.between(0, 2))};
    site.rules.contingency = Percent::from_percent(7.5);
    site.rules.tax = Percent::from_percent(19);
    site.growth.headroom = Percent::from_percent(25);
    site.hub.free_optic_ports = static_cast<int>(dice.between(0, 3));
    if (dice.one_in(2)) {
        site.hub.growth_ports = static_cast<int>(dice.between(0, 9));
        site.hub.devices = {{"recorder", static_cast<int>(dice.between(1, 5))}};
        site.hub.free_copper_ports = static_cast<int>(dice.between(0, 2));
        site.catalogue.hub_gear[0].copper_ports = static_cast<int>(dice.between(0, 2));
        site.catalogue.hub_gear[1].copper_ports = static_cast<int>(dice.between(1, 4));
    }
    site.labour.installer_rate = price(2'000'000, 9'000'000);
    for (Building& building : site.buildings) {
        if (dice.one_in(2)) building.devices = {{"camera", static_cast<int>(dice.between(1, 9)), 12}};
    }
}

}  // namespace

TEST_CASE("bound, optimum and plan stand in order for every layout on small random maps, priced in whole cents") {
    std::map<LayoutKind, Tally> tallies;
    for (int round = 0; round < effort(60); ++round) {
        CAPTURE(round);
        Dice dice(1000 + static_cast<unsigned>(round));
        MapFamily family;
        family.places = static_cast<int>(dice.between(4, 7));
        family.segments = static_cast<int>(dice.between(family.places - 1, 10));
        family.buildings = static_cast<int>(dice.between(2, 4));
        family.several_links = dice.one_in(3);
        family.dearest_ground = dice.one_in(2) ? 6000 : 600;
        Scenario site = drawing::random_map(dice, family);
        site.rules.most_enclosures = 2;
        site.rules.hop_limit = static_cast<int>(dice.between(1, 4));
        hold_against_optimum(site, tallies);
    }
    report(tallies);
    // Measured on 60 sites: every plan of these four is the optimum. Chains are held to their bracket only.
    for (const LayoutKind layout : {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::trunk, LayoutKind::mixed})
        CHECK(tallies[layout].optimal * 100 >= tallies[layout].sites * 95);
}

TEST_CASE(
    "the same with length steps, joints, spares, pulling, ducts, splices, tax and prices that do not come out even") {
    std::map<LayoutKind, Tally> tallies;
    for (int round = 0; round < effort(60); ++round) {
        CAPTURE(round);
        Dice dice(5000 + static_cast<unsigned>(round));
        MapFamily family;
        family.places = static_cast<int>(dice.between(4, 7));
        family.segments = static_cast<int>(dice.between(family.places - 1, 9));
        family.buildings = static_cast<int>(dice.between(2, 4));
        family.several_links = dice.one_in(3);
        family.dearest_ground = dice.one_in(2) ? 6000 : 600;
        Scenario site = drawing::random_map(dice, family);
        make_awkward(dice, site);
        site.rules.most_enclosures = 2;
        site.rules.hop_limit = static_cast<int>(dice.between(1, 4));
        hold_against_optimum(site, tallies);
    }
    report(tallies);
    // Measured on 60 sites: 55 to 58 plans of these four are the optimum, the worst 1.8 % above it. Routes do not know
    // of joints and length steps, so more is not promised.
    for (const LayoutKind layout :
         {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::trunk, LayoutKind::mixed}) {
        CHECK(tallies[layout].optimal * 100 >= tallies[layout].sites * 80);
        CHECK(tallies[layout].worst_excess < 0.05);
    }
}

TEST_CASE("the same for daisy chains with optics that do not reach far and joints that cost them reach") {
    std::map<LayoutKind, Tally> tallies;
    for (int round = 0; round < effort(80); ++round) {
        CAPTURE(round);
        Dice dice(6100 + static_cast<unsigned>(round));
        MapFamily family;
        family.places = static_cast<int>(dice.between(5, 7));
        family.segments = static_cast<int>(dice.between(family.places, 10));
        family.buildings = static_cast<int>(dice.between(2, 4));
        family.dearest_ground = dice.one_in(2) ? 6000 : 600;
        Scenario site = drawing::random_map(dice, family);
        site.rules.hop_limit = static_cast<int>(dice.between(2, 4));
        for (CableProduct& cable : site.catalogue.cables)
            cable.longest = Length::from_metres(static_cast<double>(dice.between(40, 300)));
        site.rules.termination = dice.one_in(2) ? Termination::factory : Termination::spliced;
        site.rules.loss.splice_db = 2.5;
        site.catalogue.optics = {drawing::optic("near", 1000, static_cast<double>(dice.between(60, 120)), 1800)};
        hold_against_optimum(site, tallies, {LayoutKind::daisy_chain});
    }
    report(tallies);
    const Tally& chains = tallies[LayoutKind::daisy_chain];
    CHECK(chains.infeasible * 10 >= chains.sites);
    CHECK(chains.infeasible * 2 <= chains.sites);
    CHECK(chains.worst_excess < 0.05);
}

}  // namespace spadework
