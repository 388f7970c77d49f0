#include "extension/extension.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "rates/quote_rates.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

using namespace small_site;

/// The small site with a byre 40 m behind the gate.
Scenario with_a_byre() {
    Scenario site = small_site::site();
    site.places.push_back(place("byre", PlaceKind::building, 100, 40));
    add_segment(site, "track", gate, 4, 40);
    site.buildings.push_back(building("byre", 4, {{"camera", 2, 12.0}}));
    site.rules.most_enclosures = 1;
    return site;
}

BuiltPlan built(const Scenario& site, const Plan& plan) {
    return {plan, kept_strands(site, plan, map_strands(site, plan, tia_598_order()))};
}

bool has_line(const Bill& bill, const std::string& item) {
    return std::any_of(bill.lines.begin(), bill.lines.end(), [&](const CostLine& line) { return line.item == item; });
}

}  // namespace

TEST_CASE("a building that comes gets a drop from the enclosure, on dark strands of the trunk") {
    const Scenario site = with_a_byre();
    const Extension extension = extend(site, built(site, trunk(site)));
    REQUIRE(extension.feasible);
    CHECK(extension.violations.empty());
    REQUIRE(extension.additions.size() == 1);
    CHECK(extension.additions.front().source.kind == Source::Kind::built_enclosure);
    CHECK(extension.new_trench == metres(40));
    CHECK(extension.opened_again == Length());
    CHECK(extension.strands_taken == 2);
    CHECK(extension.untouched.links == 2);
    CHECK(extension.untouched.touched.empty());
    // 40 m of track: groundworks 800.00 and set-up 50.00; duct 60.00; 50 m of cable-4 at 0.60; pulling 0.4 h at 36.00.
    // Ends 2 x 30.00, plugging 2 strands at 3.00 twice on the drop and twice on the trunk; optics 2 x 18.00, cords
    // 2 x 4.50, testing 2 x 10 min at 36.00; a switch of 210.00 and half an hour; mobilisation 500.00.
    const std::int64_t direct =
        80000 + 5000 + 6000 + 3000 + 1440 + 6000 + 1200 + 1200 + 3600 + 900 + 1200 + 21000 + 1800 + 50000;
    CHECK(direct_cost(extension.bill) == Money::from_minor(direct));
    CHECK(extension.total == quote_for(Money::from_minor(direct), site.rules).total());
    CHECK(extension.bound <= extension.total);
    CHECK(extension.bound_covers_all);
    CHECK(has_line(extension.bill, "plug and label strands of a trunk"));
}

TEST_CASE("without dark strands a cable of its own comes from the hub, and the closed drive is opened again") {
    const Scenario site = with_a_byre();
    Plan plan = trunk(site);
    plan.cables[0].product = cable_4;
    plan.cables[0].need = {4, 0, 0};
    plan.enclosures[0].need = {4, 0, 0};
    const Extension extension = extend(site, built(site, plan));
    REQUIRE(extension.feasible);
    CHECK(extension.violations.empty());
    CHECK(extension.additions.front().source.kind == Source::Kind::hub);
    CHECK(extension.opened_again == metres(100));
    CHECK(extension.new_trench == metres(40));
    CHECK(extension.extended.plan.layout == LayoutKind::mixed);
}

TEST_CASE("room in a duct along the drive saves opening it again") {
    Scenario site = with_a_byre();
    site.segments[drive].duct_room = 1;
    Plan plan = trunk(site);
    plan.cables[0].product = cable_4;
    plan.cables[0].need = {4, 0, 0};
    plan.enclosures[0].need = {4, 0, 0};
    const Extension extension = extend(site, built(site, plan));
    REQUIRE(extension.feasible);
    CHECK(extension.opened_again == Length());
    CHECK(extension.reused == metres(100));
}

TEST_CASE("adapters that are lacking are boxes behind those that stand, so that none is renumbered") {
    Scenario site = with_a_byre();
    site.rules.spare.trunk_spare_least = 4;
    Plan plan = trunk(site);
    plan.cables[0].need = {4, 4, 0};
    plan.enclosures[0].need = {4, 4, 0};
    plan.enclosures[0].products = {{0, 1}};  // 8 adapters, all plugged.
    const Extension extension = extend(site, built(site, plan));
    REQUIRE(extension.feasible);
    CHECK(extension.violations.empty());
    const PlannedEnclosure& enclosure = extension.extended.plan.enclosures.front();
    CHECK(enclosure.need.total() == 10);
    REQUIRE(enclosure.products.size() == 2);
    CHECK(enclosure.products.front().count == 1);
    CHECK(has_line(extension.bill, "install post-8"));
}

TEST_CASE("spares beyond the policy are taken before boxes are bought for what the policy asks") {
    Scenario site = with_a_byre();
    site.rules.spare.trunk_spare_least = 2;
    Plan plan = trunk(site);
    plan.cables[0].need = {4, 4, 0};
    plan.enclosures[0].need = {4, 4, 0};
    plan.enclosures[0].products = {{0, 1}};
    const Extension extension = extend(site, built(site, plan));
    REQUIRE(extension.feasible);
    CHECK(extension.violations.empty());
    CHECK(extension.extended.boxes.empty());
    CHECK(extension.extended.plan.enclosures.front().need.total() == 8);
}

TEST_CASE("nothing new costs nothing and leaves the plan as it is") {
    const Scenario site = small_site::site();
    const Extension extension = extend(site, built(site, trunk(site)));
    CHECK(extension.feasible);
    CHECK(extension.total == Money());
    CHECK(extension.bill.lines.empty());
    CHECK(extension.untouched.links == 2);
    CHECK(extension.violations.empty());
}

TEST_CASE("a building without a way is infeasible with its reason") {
    Scenario site = with_a_byre();
    site.segments.back().ban = "a badger sett";
    const Extension extension = extend(site, built(site, trunk(site)));
    CHECK_FALSE(extension.feasible);
    CHECK(extension.reason.find("byre") != std::string::npos);
}

TEST_CASE(
    "what is added as if strands were always enough costs no less than its own trench and no more than the rest") {
    const Scenario site = with_a_byre();
    const auto cost = cost_of_adding(site, trunk(site));
    REQUIRE(cost);
    CHECK(cost->through_trunk);
    CHECK(cost->opened == metres(40));
    CHECK(cost->direct == direct_cost(extend(site, built(site, trunk(site))).bill));
}

TEST_CASE("a chain is left alone: what comes gets a cable of its own from the hub") {
    const Scenario site = with_a_byre();
    const Extension extension = extend(site, built(site, chain(site)));
    REQUIRE(extension.feasible);
    CHECK(extension.violations.empty());
    CHECK(extension.additions.front().source.kind == Source::Kind::hub);
    CHECK(extension.extended.plan.layout == LayoutKind::daisy_chain);
    CHECK(extension.extended.plan.chains == chain(site).chains);
}

}  // namespace spadework
