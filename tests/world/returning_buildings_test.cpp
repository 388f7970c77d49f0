// Buildings that go and come back, on small random maps, by way of the plan file: their cables lie there dark.

#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "extension/extension.hpp"
#include "growth/built_from_file.hpp"
#include "layout/design.hpp"
#include "plan_file/making.hpp"
#include "support/effort.hpp"
#include "world/support/every_extension.hpp"
#include "world/support/own_prices.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;

Scenario random_site(Dice& dice) {
    drawing::MapFamily family;
    family.places = static_cast<int>(dice.between(4, 6));
    family.segments = static_cast<int>(dice.between(family.places - 1, 7));
    family.buildings = static_cast<int>(dice.between(2, 3));
    family.several_links = dice.one_in(3);
    Scenario site = drawing::random_map(dice, family);
    site.rules.termination = dice.one_in(2) ? Termination::spliced : Termination::factory;
    site.rules.spare.drop_spare_least = static_cast<int>(dice.between(0, 2));
    site.rules.most_enclosures = 1;
    site.rules.hop_limit = 3;
    return site;
}

/// What it takes to light its links again by one's own reckoning: gear, optics, cords, tests, and plugging both ends of
/// every strand in every cable it passes. Nothing is dug, laid or spliced.
own::Cents of_lighting_again(const Scenario& site, const Plan& plan, const Building& building, int passed) {
    own::Cents direct = site.labour.mobilisation.minor();
    direct += *own::building_gear(site, building, own::links_of(building), own::fastest(building));
    for (const PlannedLink& link : plan.links) {
        if (site.buildings[static_cast<std::size_t>(link.building)].id == building.id)
            direct += *own::link(site, link.rate, link.glass.millimetres(), link.mated_pairs, link.splices);
    }
    const std::int64_t seconds = 2 * site.labour.plug_time.seconds() * own::strands_of(site, own::links_of(building));
    return direct + passed * ((site.labour.installer_rate.thousandths() * seconds * 2 + 3'600'000) / 7'200'000);
}

}  // namespace

TEST_CASE("a building that comes back is lit again over its own cable, for its gear, plugging and tests alone") {
    int lit_again = 0;
    for (unsigned number = 1; number <= static_cast<unsigned>(effort(200)); ++number) {
        CAPTURE(number);
        Dice dice(number);
        const Scenario site = random_site(dice);
        const LayoutKind kind = dice.one_in(2) ? LayoutKind::trunk_one : LayoutKind::home_runs;
        Design found = design(kind, site, {});
        if (!found.plan) continue;
        const plan_file::PlanFile built = plan_file::plan_file_of(site, assess(site, std::move(found)));
        Scenario without = site;
        without.buildings.pop_back();
        const BuiltFromFile left = built_from_file(without, built);
        REQUIRE(left.built);
        const plan_file::PlanFile between = extended_file(without, built, extend(without, *left.built));
        const BuiltFromFile back = built_from_file(site, between);
        REQUIRE(back.built);
        const Extension extension = extend(site, *back.built);
        REQUIRE(extension.feasible);
        CHECK(extension.violations.empty());
        CHECK(extension.total.minor() <= own::best_extension(site, back.built->plan).value());
        if (extension.additions.front().source.cable < 0) continue;
        ++lit_again;
        CHECK(extension.extended.cables.empty());
        CHECK(extension.extended.opened.empty());
        CHECK(extension.extended.plan.cables.size() == back.built->plan.cables.size());
        const int passed = extension.additions.front().source.kind == Source::Kind::hub ? 1 : 2;
        const own::Cents direct = of_lighting_again(site, extension.extended.plan, site.buildings.back(), passed);
        if (extension.extended.hub_gear.empty()) CHECK(extension.total.minor() == own::quoted(site, direct));
    }
    CHECK(lit_again > effort(200) / 2);
}

}  // namespace spadework
