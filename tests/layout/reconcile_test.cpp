#include "layout/reconcile.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "layout/assembly.hpp"
#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

Design with_bound(LayoutKind layout, std::int64_t bound) {
    Design design;
    design.layout = layout;
    design.reason = "none found";
    design.direct_bound = Money::from_minor(bound);
    return design;
}

/// A plan whose cost is that of its trenches: `segments` of the row.
Design with_plan(LayoutKind layout, int segments) {
    Design design = with_bound(layout, 0);
    design.reason.clear();
    design.plan = Plan{};
    design.plan->layout = layout;
    for (SegmentIndex s = 0; s < segments; ++s)
        design.plan->trenches.push_back({s, 0});
    return design;
}

Design& of(std::vector<Design>& designs, LayoutKind layout) {
    return *std::find_if(designs.begin(), designs.end(), [&](const Design& d) { return d.layout == layout; });
}

}  // namespace

TEST_CASE("a wider layout takes over a cheaper plan of a narrower one, under its own name") {
    const Scenario site = drawing::row_site(4, 10);
    std::vector<Design> designs = {with_plan(LayoutKind::home_runs, 3), with_plan(LayoutKind::trunk_one, 1),
                                   with_plan(LayoutKind::trunk, 2), with_plan(LayoutKind::mixed, 4)};
    reconcile(site, designs);
    CHECK(of(designs, LayoutKind::trunk).plan->trenches.size() == 1);
    CHECK(of(designs, LayoutKind::trunk).plan->layout == LayoutKind::trunk);
    CHECK(of(designs, LayoutKind::mixed).plan->trenches.size() == 1);
    CHECK(of(designs, LayoutKind::mixed).plan->layout == LayoutKind::mixed);
    CHECK(of(designs, LayoutKind::home_runs).plan->trenches.size() == 3);
    CHECK(of(designs, LayoutKind::trunk_one).plan->trenches.size() == 1);
}

TEST_CASE("a plan makes a layout without one feasible, and a dearer plan changes nothing") {
    const Scenario site = drawing::row_site(4, 10);
    std::vector<Design> designs = {with_plan(LayoutKind::home_runs, 3), with_bound(LayoutKind::mixed, 5)};
    reconcile(site, designs);
    REQUIRE(designs[1].plan);
    CHECK(designs[1].reason.empty());
    designs = {with_plan(LayoutKind::home_runs, 3), with_plan(LayoutKind::mixed, 2)};
    reconcile(site, designs);
    CHECK(designs[1].plan->trenches.size() == 2);
}

TEST_CASE("a narrower layout takes over a wider one's higher bound, never the other way round") {
    const Scenario site = drawing::row_site(4, 10);
    std::vector<Design> designs = {with_bound(LayoutKind::home_runs, 70), with_bound(LayoutKind::trunk_one, 10),
                                   with_bound(LayoutKind::trunk, 20), with_bound(LayoutKind::mixed, 50)};
    reconcile(site, designs);
    CHECK(of(designs, LayoutKind::mixed).direct_bound.minor() == 50);
    CHECK(of(designs, LayoutKind::home_runs).direct_bound.minor() == 70);
    CHECK(of(designs, LayoutKind::trunk).direct_bound.minor() == 50);
    CHECK(of(designs, LayoutKind::trunk_one).direct_bound.minor() == 50);
}

TEST_CASE("a daisy chain neither gives nor takes") {
    const Scenario site = drawing::row_site(4, 10);
    std::vector<Design> designs = {with_plan(LayoutKind::mixed, 4), with_plan(LayoutKind::daisy_chain, 1)};
    designs[0].direct_bound = Money::from_minor(9);
    reconcile(site, designs);
    CHECK(designs[0].plan->trenches.size() == 4);
    CHECK(designs[1].direct_bound.minor() == 0);
}

TEST_CASE("a mixed design without home runs is one of the trunk layout, under its bound") {
    Design mixed = with_plan(LayoutKind::mixed, 3);
    mixed.direct_bound = Money::from_minor(70);
    mixed.plan->enclosures.emplace_back();
    mixed.plan->cables.emplace_back().role = CableRole::drop;
    const auto trunk = trunk_within(mixed);
    REQUIRE(trunk);
    CHECK(trunk->layout == LayoutKind::trunk);
    CHECK(trunk->plan->layout == LayoutKind::trunk);
    CHECK(trunk->plan->trenches == mixed.plan->trenches);
    CHECK(trunk->direct_bound == Money::from_minor(70));
    CHECK(trunk->certificate.contained_in == LayoutKind::mixed);
}

TEST_CASE("a mixed design with a home run, without an enclosure or without a plan says nothing of a trunk") {
    Design mixed = with_plan(LayoutKind::mixed, 3);
    CHECK_FALSE(trunk_within(mixed));
    mixed.plan->enclosures.emplace_back();
    CHECK(trunk_within(mixed));
    mixed.plan->cables.emplace_back().role = CableRole::home_run;
    CHECK_FALSE(trunk_within(mixed));
    CHECK_FALSE(trunk_within(with_bound(LayoutKind::mixed, 5)));
}

}  // namespace spadework
