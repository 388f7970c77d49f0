// Rings on small sites against an exhaustive solver of separate simple code that prices with code of its own:
// bound <= optimum <= plan, and how often the plan is the optimum.

#include <doctest/doctest.h>

#include "study/study.hpp"
#include "support/effort.hpp"
#include "world/support/every_ring.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using drawing::MapFamily;

struct Tally {
    int sites = 0;
    int without_plan = 0;
    int optimal = 0;
    double worst_excess = 0;  ///< Of a plan over the optimum, as a share.
    double gaps = 0;          ///< Of bounds below the optimum, summed.
};

void hold_against_optimum(const Scenario& site, Tally& tally) {
    const auto optimum = own::optimum_of_rings(site);
    StudyOptions options;
    options.layouts = {LayoutKind::ring};
    const Study study = compare_layouts(site, options);
    for (const std::string& violation : study.violations)
        FAIL_CHECK(violation);
    const LayoutResult& result = study.comparison.layouts.front();
    CAPTURE(result.reason);
    REQUIRE(result.feasible() == optimum.has_value());
    if (!optimum) {
        CHECK(!result.reason.empty());
        ++tally.without_plan;
        return;
    }
    CHECK(result.bound.minor() <= *optimum);
    CHECK(*optimum <= result.total.minor());
    const auto share = [&](std::int64_t over) { return static_cast<double>(over) / static_cast<double>(*optimum); };
    ++tally.sites;
    tally.optimal += result.total.minor() == *optimum ? 1 : 0;
    tally.worst_excess = std::max(tally.worst_excess, share(result.total.minor() - *optimum));
    tally.gaps += share(*optimum - result.bound.minor());
}

void report(const Tally& tally) {
    MESSAGE(tally.sites, " sites, ", tally.optimal, " optimal, worst plan ", 100 * tally.worst_excess,
            " % above, bounds on average ", 100 * tally.gaps / tally.sites, " % below");
}

Scenario small_map(Dice& dice, int segments) {
    MapFamily family;
    family.places = static_cast<int>(dice.between(3, 6));
    family.segments = static_cast<int>(dice.between(family.places - 1, segments));
    family.buildings = static_cast<int>(dice.between(1, 3));
    family.several_links = dice.one_in(3);
    family.dearest_ground = dice.one_in(2) ? 6000 : 600;
    Scenario site = drawing::random_map(dice, family);
    site.rules.hop_limit = static_cast<int>(dice.between(1, 3));
    return site;
}

}  // namespace

TEST_CASE("bound, optimum and plan of rings stand in order on small random maps, priced in whole cents") {
    Tally tally;
    for (int round = 0; round < effort(60); ++round) {
        CAPTURE(round);
        Dice dice(7000 + static_cast<unsigned>(round));
        hold_against_optimum(small_map(dice, 9), tally);
    }
    report(tally);
    CHECK(tally.optimal * 100 >= tally.sites * 90);
    CHECK(tally.worst_excess < 0.05);
}

TEST_CASE("the same for rings with length steps, spares, pulling, ducts, tax, splices and free ports at the hub") {
    Tally tally;
    for (int round = 0; round < effort(60); ++round) {
        CAPTURE(round);
        Dice dice(8000 + static_cast<unsigned>(round));
        Scenario site = small_map(dice, 8);
        for (CableProduct& cable : site.catalogue.cables) {
            cable.price_per_metre = UnitPrice::from_thousandths(dice.between(20'000, 900'000));
            cable.factory_end_price = UnitPrice::from_thousandths(dice.between(0, 4'000'000));
            cable.length_step = Length::from_metres(static_cast<double>(dice.one_in(2) ? 1 : dice.between(5, 25)));
        }
        for (Ground& ground : site.grounds) {
            ground.methods[0].duct_per_metre = UnitPrice::from_thousandths(77'777);
            ground.methods[0].pull_hours_per_metre = 0.0123;
            ground.methods[0].set_up = Money::from_minor(dice.between(0, 20'000));
        }
        site.rules.termination = dice.one_in(2) ? Termination::factory : Termination::spliced;
        site.rules.spare.drop_spare_least = static_cast<int>(dice.between(0, 2));
        site.rules.tax = Percent::from_percent(19);
        site.hub.free_optic_ports = static_cast<int>(dice.between(0, 5));
        hold_against_optimum(site, tally);
    }
    report(tally);
    CHECK(tally.optimal * 100 >= tally.sites * 80);
    CHECK(tally.worst_excess < 0.05);
}

TEST_CASE("the same for rings with optics that do not reach far, joints that cost them reach, and coils in handholes") {
    Tally tally;
    int dearer = 0;
    for (int round = 0; round < effort(80); ++round) {
        CAPTURE(round);
        Dice dice(9000 + static_cast<unsigned>(round));
        Scenario site = small_map(dice, 8);
        for (Place& place : site.places) {
            if (place.kind == PlaceKind::junction && dice.one_in(2)) place.kind = PlaceKind::handhole;
        }
        site.rules.slack.coil_per_handhole = Length::from_metres(static_cast<double>(dice.between(0, 6)));
        for (CableProduct& cable : site.catalogue.cables)
            cable.longest = Length::from_metres(static_cast<double>(dice.between(40, 300)));
        site.rules.termination = dice.one_in(2) ? Termination::factory : Termination::spliced;
        site.rules.loss.splice_db = 2.5;
        const auto anywhere = own::optimum_of_rings(site);
        site.catalogue.optics = {drawing::optic("near", 1000, static_cast<double>(dice.between(70, 140)), 1800)};
        const auto optimum = own::optimum_of_rings(site);
        dearer += anywhere && optimum != anywhere ? 1 : 0;
        hold_against_optimum(site, tally);
    }
    report(tally);
    MESSAGE("reach makes rings dearer or impossible on ", dearer, " sites, impossible on ", tally.without_plan);
    CHECK(dearer * 3 >= effort(80));
    CHECK(tally.sites * 3 >= effort(80));
    CHECK(tally.optimal * 100 >= tally.sites * 75);
    CHECK(tally.worst_excess < 0.05);
}

TEST_CASE("a building at the hub's own place, alone or with others, hangs on two cables without a trench") {
    Scenario site = drawing::bare_site();
    drawing::add_building(site, site.hub.place, 1);
    drawing::add_building(site, site.hub.place, 1);
    StudyOptions options;
    options.layouts = {LayoutKind::ring};
    for (const int limit : {1, 2}) {
        site.rules.hop_limit = limit;
        const Study study = compare_layouts(site, options);
        CHECK(study.violations.empty());
        const LayoutResult& result = study.comparison.layouts.front();
        REQUIRE(result.feasible());
        CHECK(result.plan->chains.size() == static_cast<std::size_t>(2 / limit));
        CHECK(result.plan->trenches.empty());
        CHECK(result.worst_cut.lost.empty());
        CHECK(result.total.minor() == own::optimum_of_rings(site));
        CHECK(result.bound <= result.total);
    }
}

}  // namespace spadework
