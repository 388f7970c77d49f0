// Extensions of plans that were built, on small random maps with ducts of little room and poles: against every source
// and every path of every further building's cable.

#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "extension/extension.hpp"
#include "layout/design.hpp"
#include "strand_map/strand_map_check.hpp"
#include "support/effort.hpp"
#include "world/support/every_extension.hpp"
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
    family.buildings = static_cast<int>(dice.between(3, 4));
    family.several_links = dice.one_in(3);
    family.dearest_ground = dice.one_in(2) ? 6000 : 600;
    Scenario site = drawing::random_map(dice, family);
    for (Segment& segment : site.segments) {
        if (dice.one_in(3)) segment.duct_room = static_cast<int>(dice.between(1, 3));
        segment.pole_line = dice.one_in(5);
    }
    for (Ground& ground : site.grounds) {
        ground.methods[0].duct_per_metre = UnitPrice::from_minor(static_cast<double>(dice.between(0, 300)));
        ground.methods[0].pull_hours_per_metre = 0.02;
    }
    site.existing_duct.pull_hours_per_metre = 0.03;
    site.existing_duct.plant_per_metre = UnitPrice::from_minor(dice.one_in(2) ? 0 : 50);
    site.pole_line.pull_hours_per_metre = 0.05;
    site.rules.termination = dice.one_in(3) ? Termination::spliced : Termination::factory;
    site.rules.spare.drop_spare_least = static_cast<int>(dice.between(0, 2));
    site.rules.spare.trunk_spare = Percent::from_percent(static_cast<double>(dice.between(0, 2)) * 25);
    site.rules.most_enclosures = static_cast<int>(dice.between(1, 2));
    return site;
}

/// The site with the first so many of its buildings.
Scenario with_buildings(Scenario site, std::size_t count) {
    site.buildings.resize(std::min(count, site.buildings.size()));
    return site;
}

BuiltPlan built_on(const Scenario& before, LayoutKind kind) {
    const Design found = design(kind, before, {});
    if (!found.plan) return {};
    const StrandMap map = map_strands(before, *found.plan, tia_598_order());
    return {*found.plan, kept_strands(before, *found.plan, map)};
}

}  // namespace

TEST_CASE("extensions are as cheap as the cheapest of all, their bound is never above it, and no link is touched") {
    int sites = 0;
    int optimal = 0;
    for (unsigned number = 1; number <= static_cast<unsigned>(effort(400)); ++number) {
        CAPTURE(number);
        Dice dice(number);
        const Scenario site = random_site(dice);
        const auto kind = dice.one_in(2) ? LayoutKind::trunk_one : LayoutKind::home_runs;
        const auto built = static_cast<std::size_t>(dice.between(1, 2));
        // Buildings are in the order of their places, and indices stay when more come behind.
        const BuiltPlan plan = built_on(with_buildings(site, built), kind);
        if (plan.plan.links.empty()) continue;
        const auto optimum = own::best_extension(site, plan.plan);
        const Extension extension = extend(site, plan);
        CHECK(extension.violations == std::vector<std::string>{});
        CHECK(extension.untouched.touched.empty());
        CHECK(extension.feasible == optimum.has_value());
        if (!extension.feasible || !optimum) continue;
        ++sites;
        CHECK(extension.total.minor() >= *optimum);
        if (extension.bound_covers_all) CHECK(extension.bound.minor() <= *optimum);
        CHECK(extension.bill.total() == extension.total);
        optimal += extension.total.minor() == *optimum ? 1 : 0;
        if (extension.total.minor() != *optimum)
            MESSAGE("site ", number, ": ", extension.total.minor(), " against ", *optimum);
    }
    CHECK(sites > effort(400) / 2);
    CHECK(optimal == sites);
}

}  // namespace spadework
