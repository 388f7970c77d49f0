#include "extension/chain_change.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "extension/extension.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

using namespace small_site;

constexpr BuildingIndex den = 2;

/// The small site with a den at the end of a track of so many metres from a place.
Scenario with_a_den(PlaceIndex from, double track) {
    Scenario site = small_site::site();
    site.places.push_back(place("den", PlaceKind::building, 200, 0));
    add_segment(site, "track", from, 4, track);
    site.buildings.push_back(building("den", 4, {{"camera", 1, 7.0}}));
    site.rules.hop_limit = 3;
    return site;
}

BuiltPlan built(const Scenario& site, const Plan& plan) {
    return {plan, kept_strands(site, plan, map_strands(site, plan, tia_598_order()))};
}

/// The chain with a converter, which has one optic port, in the mill.
Plan chain_with_converter(const Scenario& site) {
    Plan plan = chain(site);
    plan.building_gear[1].pieces = {0, 1};
    return plan;
}

}  // namespace

TEST_CASE("a building that comes hangs on the last of a chain, on a port that is free, and no link is touched") {
    const Scenario site = with_a_den(mill_place, 10);
    const Extension extension = extend(site, built(site, chain(site)));
    REQUIRE(extension.feasible);
    CHECK(extension.violations.empty());
    REQUIRE(extension.additions.size() == 1);
    CHECK(extension.additions.front().source == Source{Source::Kind::building, -1, mill});
    CHECK(extension.extended.plan.chains == std::vector<std::vector<BuildingIndex>>{{barn, mill, den}});
    CHECK(extension.extended.plan.hub_ports == 1);
    CHECK(extension.extended.plan.links.back().from == mill);
    CHECK(extension.untouched.links == 2);
    CHECK_FALSE(extension.interruption);
    // 10 m of track: 200.00 and set-up 50.00, duct 15.00; 20 m of cable-4 at 0.60, pulling 0.1 h at 36.00; ends 2 x
    // 30.00, plugging 2 strands at 3.00 twice; optics 2 x 18.00, cords 2 x 4.50, testing 2 x 10 min at 36.00; a
    // converter of 60.00 and half an hour; mobilisation 500.00. No port at the hub.
    const std::int64_t direct =
        20000 + 5000 + 1500 + 1200 + 360 + 6000 + 1200 + 3600 + 900 + 1200 + 6000 + 1800 + 50000;
    CHECK(direct_cost(extension.bill) == Money::from_minor(direct));
}

TEST_CASE("a chain that is as long as the rules allow takes no more") {
    Scenario site = with_a_den(mill_place, 10);
    site.rules.hop_limit = 2;
    const Extension extension = extend(site, built(site, chain(site)), {.may_interrupt = true});
    REQUIRE(extension.feasible);
    CHECK(extension.additions.front().source.kind == Source::Kind::hub);
    CHECK_FALSE(extension.interrupting);
}

TEST_CASE("gear without a free port is replaced with leave alone, and its links are told") {
    Scenario site = with_a_den(mill_place, 10);
    site.buildings[mill].devices = {{"camera", 1, 12.0}};
    const BuiltPlan before = built(site, chain_with_converter(site));
    const Extension left = extend(site, before);
    REQUIRE(left.feasible);
    CHECK(left.additions.front().source.kind == Source::Kind::hub);
    REQUIRE(left.interrupting);
    CHECK(left.interrupting->interruption.what == "larger gear in building mill");
    const Extension taken = extend(site, before, {.may_interrupt = true});
    REQUIRE(taken.interruption);
    CHECK(taken.violations.empty());
    CHECK(taken.total == left.interrupting->total);
    CHECK(taken.interruption->links == std::vector<int>{1});
    // Half an hour for the switch, and two strands tested again.
    CHECK(taken.interruption->outage == WorkTime::from_minutes(30 + 20));
    CHECK(taken.untouched.links == 1);
    CHECK(taken.restored.links == 1);
    CHECK(taken.extended.plan.building_gear[1].pieces.product == 1);
}

TEST_CASE("a building beside a ring takes a place in it with leave, and the link it parts is told and made anew") {
    const Scenario site = with_a_den(barn_place, 3);
    const BuiltPlan before = built(site, ring(site));
    const Extension left = extend(site, before);
    REQUIRE(left.interrupting);
    CHECK(left.interrupting->total < left.total);
    const Extension taken = extend(site, before, {.may_interrupt = true});
    REQUIRE(taken.interruption);
    CHECK(taken.violations.empty());
    CHECK(taken.total == left.interrupting->total);
    CHECK(taken.interruption->what == "a place in the ring before building mill");
    CHECK(taken.interruption->made_anew);
    CHECK(taken.interruption->cut_off.empty());
    CHECK(taken.interruption->links == std::vector<int>{1});
    // Two strands, plugged at both ends at 5 min and tested again at 10 min.
    CHECK(taken.interruption->outage == WorkTime::from_minutes(4 * 5 + 2 * 10));
    CHECK(taken.untouched.links == 2);
    CHECK(taken.restored.strands == 2);
    CHECK(taken.extended.plan.chains == std::vector<std::vector<BuildingIndex>>{{barn, den, mill}});
    const auto dark = std::find_if(taken.extended.plan.cables.begin(), taken.extended.plan.cables.end(),
                                   [](const PlannedCable& cable) { return cable.id == "hop-mill"; });
    REQUIRE(dark != taken.extended.plan.cables.end());
    CHECK(dark->need.in_use == 0);
    CHECK_FALSE(dark->building);
}

TEST_CASE("a place before a ring's first building leaves the ring one, and the cable that was there lies dark") {
    const Scenario site = with_a_den(hub, 5);
    const BuiltPlan before = built(site, ring(site));
    const Extension extension = extend(site, before, {.may_interrupt = true});
    REQUIRE(extension.feasible);
    CHECK(extension.violations.empty());
    // Its own cable from the hub is far cheaper than a second one on to the barn.
    CHECK(extension.additions.front().source.kind == Source::Kind::hub);
    REQUIRE(extension.interrupting);
    CHECK(extension.interrupting->total > extension.total);
    CHECK(extension.interrupting->interruption.what.find("a place in the ring before building") == 0);
    CHECK(extension.interrupting->interruption.cut_off.empty());
}

}  // namespace spadework
