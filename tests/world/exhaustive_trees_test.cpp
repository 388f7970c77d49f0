// Home runs and the trunk with one enclosure on maps of up to nine buildings and sixty segments, against dynamic
// programming over sets of buildings with prices reckoned by code of its own.

#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "comparison/verification.hpp"
#include "layout/design.hpp"
#include "support/effort.hpp"
#include "world/support/every_tree.hpp"
#include "world/support/proof_by_splits.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using drawing::MapFamily;

/// Two ways of opening most grounds, the same work for every cable that passes, and whole cents a metre throughout.
Scenario random_site(Dice& dice) {
    MapFamily family;
    family.buildings = static_cast<int>(dice.between(2, 9));
    family.places = static_cast<int>(dice.between(family.buildings + 1, 40));
    family.segments = static_cast<int>(dice.between(family.places - 1, 60));
    family.several_links = dice.one_in(3);
    family.dearest_ground = dice.one_in(2) ? 8000 : 500;
    Scenario site = drawing::random_map(dice, family);
    for (Ground& ground : site.grounds) {
        OpeningMethod& cut = ground.methods[0];
        cut.pull_hours_per_metre = 0.01;  // 36 seconds at 36.00 an hour: 36 cents.
        cut.duct_per_metre = UnitPrice::from_minor(45);
        OpeningMethod bore = cut;
        bore.id = "bore";
        bore.plant_per_metre = UnitPrice::from_minor(static_cast<double>(dice.between(1, 60) * 100));
        bore.set_up = Money::from_minor(dice.between(0, 400) * 100);
        ground.methods.push_back(bore);
    }
    for (Place& place : site.places)
        place.enclosure_allowed = dice.one_in(2);
    site.rules.slack.ordering_allowance = Percent::from_percent(5);
    site.rules.slack.rise_per_end = Length::from_metres(10);
    site.rules.contingency = Percent::from_percent(5);
    site.rules.tax = Percent::from_percent(20);
    return site;
}

struct Tally {
    int sites = 0;
    int optimal = 0;
    int proved = 0;
    double worst_excess = 0;
    double worst_gap = 0;
};

void hold(const Scenario& site, LayoutKind kind, const std::optional<own::Cents>& optimum, Tally& tally) {
    const LayoutResult result = assess(site, design(kind, site, {}));
    CAPTURE(result.reason);
    REQUIRE(result.feasible() == optimum.has_value());
    ++tally.sites;
    if (!optimum) return;
    for (const std::string& violation : violations(site, result))
        FAIL_CHECK(violation);
    CHECK(result.bound.minor() <= *optimum);
    CHECK(*optimum <= result.total.minor());
    const auto whole = static_cast<double>(*optimum);
    tally.optimal += result.total.minor() == *optimum ? 1 : 0;
    tally.worst_excess = std::max(tally.worst_excess, static_cast<double>(result.total.minor() - *optimum) / whole);
    tally.worst_gap = std::max(tally.worst_gap, static_cast<double>(*optimum - result.bound.minor()) / whole);
}

void report(const char* layout, const Tally& tally) {
    MESSAGE(std::string(layout), ": ", tally.sites, " sites, ", tally.optimal, " optimal, worst plan ",
            100 * tally.worst_excess, " % above, worst bound ", 100 * tally.worst_gap, " % below");
}

}  // namespace

TEST_CASE("home runs and one-enclosure trunks of up to nine buildings bracket the optimum") {
    Tally home_runs;
    Tally trunk;
    for (int round = 0; round < effort(60); ++round) {
        CAPTURE(round);
        Dice dice(20'000 + static_cast<unsigned>(round));
        const Scenario site = random_site(dice);
        hold(site, LayoutKind::home_runs, own::best_home_runs(site), home_runs);
        hold(site, LayoutKind::trunk_one, own::best_trunk_with_one_enclosure(site), trunk);
    }
    report("Home runs", home_runs);
    report("Trunk, one enclosure", trunk);
    // Measured on 60 sites: every plan of both layouts is the optimum; bounds at worst 0.02 % and 1.1 % below it.
    CHECK(home_runs.optimal * 100 >= home_runs.sites * 95);
    CHECK(trunk.optimal * 100 >= trunk.sites * 95);
    CHECK(home_runs.worst_gap < 0.01);
    CHECK(trunk.worst_gap < 0.03);
}

TEST_CASE("home runs across a road whose crossings prices take by halves are proved the cheapest") {
    Tally home_runs;
    int split = 0;
    for (int round = 0; round < effort(60); ++round) {
        CAPTURE(round);
        Dice dice(30'000 + static_cast<unsigned>(round));
        const auto crossings = static_cast<int>(dice.between(3, 5));
        const Scenario site = drawing::crossings_site(dice, crossings, static_cast<int>(dice.between(3, 8)));
        hold(site, LayoutKind::home_runs, own::best_home_runs(site), home_runs);
        split += own::pieces_proved_by_splits(site, LayoutKind::home_runs);
    }
    report("Home runs across a road", home_runs);
    MESSAGE(split << " took splits");
    CHECK(split > effort(20));
    CHECK(home_runs.optimal == home_runs.sites);
    CHECK(home_runs.worst_gap < 1e-4);
}

}  // namespace spadework
