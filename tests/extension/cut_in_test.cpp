#include "extension/cut_in.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "extension/extension.hpp"
#include "layout/cut_trunk.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

using namespace small_site;

constexpr PlaceIndex bend = 4, byre = 5;

/// The small site with a bend in its drive, 60 m from the hub, and a byre 10 m behind the bend.
Scenario with_a_bend() {
    Scenario site = small_site::site();
    site.places.push_back(place("bend", PlaceKind::handhole, 60, 0));
    site.places.back().enclosure_allowed = true;
    site.places.push_back(place("byre", PlaceKind::building, 60, 10));
    site.segments[drive].to = bend;
    site.segments[drive].length = metres(60);
    add_segment(site, "avenue", bend, gate, 40);
    add_segment(site, "track", bend, byre, 10);
    site.buildings.push_back(building("shed", byre, {{"camera", 1, 7.0}}));
    site.rules.most_enclosures = 2;
    return site;
}

/// Its trunk, as it is built without the byre.
Plan bent_trunk(const Scenario& site) {
    Plan plan = trunk(site);
    const PlannedCable whole = cable_along(site, "trunk-1", {{drive, 0}, {3, 0}}, cable_12);
    plan.cables[0].steps = whole.steps;
    plan.cables[0].lengths = whole.lengths;
    plan.cables[0].to = whole.to;
    for (PlannedLink& link : plan.links)
        link.glass = whole.lengths.ordered + plan.cables[static_cast<std::size_t>(link.cables[1])].lengths.ordered;
    plan.trenches = {{drive, 0}, {lane, 0}, {path, 0}, {3, 0}};
    return plan;
}

BuiltPlan built(const Scenario& site, const Plan& plan) {
    return {plan, kept_strands(site, plan, map_strands(site, plan, tia_598_order()))};
}

Extension interrupting(const Scenario& site, const BuiltPlan& built) {
    return extend(site, built, {.may_interrupt = true});
}

}  // namespace

TEST_CASE("a trunk that is cut is two cables that add up to it, and its links pass a splice more") {
    const Scenario site = with_a_bend();
    const Plan plan = bent_trunk(site);
    const auto cuts = possible_cuts(site, plan);
    REQUIRE(cuts.size() == 1);
    CHECK(cuts.front().place == bend);
    const MadeCut made = make_cut(site, plan, cuts.front());
    const PlannedCable& near = made.plan.cables[static_cast<std::size_t>(made.near)];
    const PlannedCable& far = made.plan.cables[static_cast<std::size_t>(made.far)];
    CHECK(near.id == "trunk-bend");
    CHECK(far.id == "trunk-1");
    CHECK(far.spliced_to == made.near);
    CHECK(near.lengths.route == metres(60));
    CHECK(near.lengths.ordered + far.lengths.ordered == plan.cables[0].lengths.ordered);
    CHECK(near.lengths.with_slack + far.lengths.with_slack == plan.cables[0].lengths.with_slack);
    for (const PlannedLink& link : made.plan.links) {
        CHECK(link.splices == 1);
        CHECK(link.mated_pairs == 3);
    }
    CHECK(made.plan.links[0].glass == plan.links[0].glass);
}

TEST_CASE("without leave a cut is priced and not taken; with it, the plan has the cut where that is cheaper") {
    const Scenario site = with_a_bend();
    const BuiltPlan before = built(site, bent_trunk(site));
    const Extension left_alone = extend(site, before);
    REQUIRE(left_alone.feasible);
    CHECK_FALSE(left_alone.interruption);
    REQUIRE(left_alone.interrupting);
    REQUIRE(left_alone.interrupting->total < left_alone.total);
    const Extension taken = interrupting(site, before);
    REQUIRE(taken.feasible);
    CHECK(taken.violations.empty());
    CHECK(taken.total == left_alone.interrupting->total);
    REQUIRE(taken.interruption);
    CHECK(taken.interruption->links == std::vector<int>{0, 1});
    // 30 min to set up, 12 splices of 6 min, and 4 strands tested again, 10 min each.
    CHECK(taken.interruption->outage == WorkTime::from_minutes(30 + 72 + 40));
    CHECK(taken.untouched.links == 0);
    CHECK(taken.restored.strands == 8);
    CHECK(taken.restored.touched.empty());
}

TEST_CASE("a cut in costs its enclosure, splicing, a pigtail a strand, and testing again what was down") {
    const Scenario site = with_a_bend();
    const Extension taken = interrupting(site, built(site, bent_trunk(site)));
    // 10 m of track: 200.00 and set-up 50.00, duct 15.00; 20 m of cable-4 at 0.60, pulling 0.1 h at 36.00; ends 2 x
    // 30.00, plugging 2 strands at 3.00 twice on the drop and once at the hub; 2 pigtails of 8.00; 1.7 h at 72.00; a
    // post-8 and 1.5 h at 36.00; optics 2 x 18.00, cords 2 x 4.50; testing 6 strands of 10 min at 36.00; a converter of
    // 60.00 and half an hour; mobilisation 500.00.
    const std::int64_t direct = 20000 + 5000 + 1500 + 1200 + 360 + 6000 + 1200 + 600 + 1600 + 12240 + 20000 + 5400 +
                                3600 + 900 + 3600 + 6000 + 1800 + 50000;
    CHECK(direct_cost(taken.bill) == Money::from_minor(direct));
}

TEST_CASE("a strand has one number on both sides of a cut, and what ends there is dark behind it") {
    const Scenario site = with_a_bend();
    const Extension taken = interrupting(site, built(site, bent_trunk(site)));
    const Plan& plan = taken.extended.plan;
    int spliced = 0;
    for (const MappedStrand& strand : taken.strand_map) {
        if (plan.cables[static_cast<std::size_t>(strand.cable)].id != "trunk-1") continue;
        spliced += strand.near.holder == Holder::spliced ? 1 : 0;
        if (strand.near.holder == Holder::stored) CHECK(strand.purpose == StrandPurpose::beyond_need);
    }
    CHECK(spliced == 10);
    CHECK(works_of(site, plan, BitRate()).dark_strands == std::vector<int>{6, 6, 2, 2, 2});
}

TEST_CASE("a trunk is cut a second time, and the enclosure at the first cut takes one more") {
    Scenario site = with_a_bend();
    site.places.push_back(place("spring", PlaceKind::handhole, 30, 0));
    site.places.push_back(place("hut", PlaceKind::building, 30, 5));
    site.places.push_back(place("den", PlaceKind::building, 60, -8));
    const Plan plan = bent_trunk(site);
    Extension first = interrupting(site, built(site, plan));
    REQUIRE(first.interruption);
    Scenario later = site;
    add_segment(later, "den-track", bend, 8, 8);
    later.buildings.push_back(building("ten", 8, {{"camera", 1, 7.0}}));
    const BuiltPlan between{first.extended.plan, kept_strands(site, first.extended.plan, first.strand_map)};
    const Extension second = interrupting(later, between);
    REQUIRE(second.feasible);
    CHECK_FALSE(second.interruption);
    CHECK(second.additions.front().source.kind == Source::Kind::built_enclosure);
    CHECK(second.additions.front().from == bend);
    CHECK(second.violations.empty());
    CHECK(second.untouched.links == 3);
    // The post at the bend has 8 adapters, of which 4 are taken now; the strands are spliced to pigtails there.
    CHECK(second.extended.boxes.empty());
    CHECK(std::any_of(second.bill.lines.begin(), second.bill.lines.end(),
                      [](const CostLine& line) { return line.item == "splice strands of a trunk at a cut"; }));
}

TEST_CASE("nothing is cut where the site file says nothing of splicing, or the rules allow no further enclosure") {
    Scenario site = with_a_bend();
    site.catalogue.splicing = {};
    CHECK_FALSE(extend(site, built(site, bent_trunk(site))).interrupting);
    site = with_a_bend();
    site.rules.most_enclosures = 1;
    CHECK_FALSE(extend(site, built(site, bent_trunk(site))).interrupting);
}

}  // namespace spadework
