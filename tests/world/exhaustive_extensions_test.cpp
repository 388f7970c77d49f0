// Extensions of plans that were built, on small random maps with ducts of little room and poles: against every source
// and every path of every further building's cable.

#include <algorithm>
#include <map>
#include <tuple>

#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "comparison/verification.hpp"
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

/// Enclosures may stand at one place alone, which is not the hub's.
Scenario with_one_place(Dice& dice, Scenario site) {
    const auto one = static_cast<std::size_t>(dice.between(1, static_cast<std::int64_t>(site.places.size()) - 1));
    for (std::size_t p = 0; p < site.places.size(); ++p)
        site.places[p].enclosure_allowed = p == one;
    return site;
}

/// Boxes and splicing for next to nothing, ducts and poles nowhere, so that trunks are worth cutting.
void make_cuts_cheap(Scenario& site) {
    for (Segment& segment : site.segments) {
        segment.duct_room.reset();
        segment.pole_line = false;
    }
    for (EnclosureProduct& box : site.catalogue.enclosures)
        box.price = UnitPrice::from_minor(100);
    site.catalogue.splicing.rate_per_hour = UnitPrice::from_minor(100);
    for (Place& place : site.places)
        place.enclosure_extra = Money();
    site.growth.headroom = Percent::from_percent(100);
}

/// What the verifier of layouts finds in a plan, but for spares that new links took; and, where links run in other
/// cables now, for the cables that they left and for what cuts do to the building that was put among others.
std::vector<std::string> found_by_verifier(const Scenario& site, const Plan& plan, bool other_cables = false) {
    Design design;
    design.layout = plan.layout;
    design.plan = plan;
    std::vector<std::string> found = violations(site, assess(site, std::move(design)));
    std::erase_if(found, [&](const std::string& sentence) {
        const auto says = [&](const char* words) { return sentence.find(words) != std::string::npos; };
        return says(" spare strands and ") ||
               (other_cables && (says(" lies dark: ") || says("which the map gives another way")));
    });
    return found;
}

/// Where each strand of each link of the site's buildings begins and ends, followed from cable to cable: adapter and
/// port at both, and the strand's number in each trunk and drop, parts of a trunk counted once.
using Ends = std::tuple<int, int, int, int, std::vector<int>>;
std::map<std::tuple<std::string, int, int>, Ends> ends_of_links(const Scenario& site, const Plan& plan,
                                                                const std::vector<KeptStrand>& strands) {
    std::map<std::tuple<std::string, int, int>, Ends> ends;
    for (const PlannedLink& link : plan.links) {
        if (link.building >= static_cast<BuildingIndex>(site.buildings.size())) continue;
        const std::string& building = site.buildings[static_cast<std::size_t>(link.building)].id;
        for (int leg = 1; leg <= link.strands; ++leg) {
            Ends& of = ends[{building, link.number, leg}];
            for (const int c : link.cables) {
                const PlannedCable& cable = plan.cables[static_cast<std::size_t>(c)];
                for (const KeptStrand& strand : strands) {
                    if (strand.cable != cable.id || strand.building != building || strand.link != link.number ||
                        strand.leg != leg)
                        continue;
                    auto& [near_adapter, near_port, far_adapter, far_port, numbers] = of;
                    if (c == link.cables.front())
                        std::tie(near_adapter, near_port) = std::tie(strand.near_adapter, strand.near_port);
                    if (c == link.cables.back())
                        std::tie(far_adapter, far_port) = std::tie(strand.far_adapter, strand.far_port);
                    if (!cable.spliced_to || numbers.back() != strand.number) numbers.push_back(strand.number);
                }
            }
        }
    }
    return ends;
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

TEST_CASE("with leave to interrupt, no cut at any place of any trunk is cheaper, and every link is itself again") {
    int sites = 0;
    int cuts = 0;
    for (unsigned number = 1; number <= static_cast<unsigned>(effort(300)); ++number) {
        CAPTURE(number);
        Dice dice(number);
        Scenario site = random_site(dice);
        site.rules.most_enclosures = 2;
        make_cuts_cheap(site);
        const auto built = static_cast<std::size_t>(dice.between(1, 2));
        const BuiltPlan plan = built_on(with_one_place(dice, with_buildings(site, built)), LayoutKind::trunk_one);
        if (plan.plan.links.empty()) continue;
        const auto optimum = own::best_extension(site, plan.plan, own::Interrupting::allowed);
        const Extension extension = extend(site, plan, {.may_interrupt = true});
        CHECK(extension.violations == std::vector<std::string>{});
        CHECK(extension.feasible == optimum.has_value());
        if (!extension.feasible || !optimum) continue;
        ++sites;
        CHECK(extension.total.minor() == *optimum);
        if (extension.bound_covers_all && !extension.interruption) CHECK(extension.bound.minor() <= *optimum);
        CHECK(ends_of_links(with_buildings(site, built), plan.plan, plan.strands) ==
              ends_of_links(with_buildings(site, built), extension.extended.plan,
                            kept_strands(site, extension.extended.plan, extension.strand_map)));
        if (!extension.interruption) continue;
        ++cuts;
        CHECK(found_by_verifier(site, extension.extended.plan) == std::vector<std::string>{});
    }
    CHECK(sites > effort(300) / 3);
    CHECK(cuts > effort(300) / 60);
}

TEST_CASE("no end of a chain, no larger gear there and no place in a chain or ring is cheaper than what is taken") {
    int sites = 0;
    int hung = 0;
    int swapped = 0;
    int inserted = 0;
    for (unsigned number = 1; number <= static_cast<unsigned>(effort(300)); ++number) {
        CAPTURE(number);
        Dice dice(number);
        Scenario site = random_site(dice);
        for (Building& building : site.buildings)
            building.links.front().count = 1;
        site.rules.hop_limit = static_cast<int>(dice.between(2, 4));
        const auto kind = dice.one_in(3) ? LayoutKind::ring : LayoutKind::daisy_chain;
        const auto count = static_cast<std::size_t>(dice.between(2, 3));
        const BuiltPlan plan = built_on(with_buildings(site, count), kind);
        if (plan.plan.links.empty()) continue;
        for (const bool may_interrupt : {false, true}) {
            CAPTURE(may_interrupt);
            const auto leave = may_interrupt ? own::Interrupting::allowed : own::Interrupting::no;
            const auto optimum = own::best_extension(site, plan.plan, leave);
            const Extension extension = extend(site, plan, {.may_interrupt = may_interrupt});
            CHECK(extension.violations == std::vector<std::string>{});
            CHECK(extension.feasible == optimum.has_value());
            if (!extension.feasible || !optimum) continue;
            ++sites;
            CHECK(extension.total.minor() == *optimum);
            for (const Addition& addition : extension.additions)
                hung += addition.source.kind == Source::Kind::building ? 1 : 0;
            swapped += extension.extended.swapped.empty() ? 0 : 1;
            const bool anew = extension.interruption && extension.interruption->made_anew;
            inserted += anew ? 1 : 0;
            const bool all_in_chains =
                anew || std::all_of(extension.additions.begin(), extension.additions.end(),
                                    [](const Addition& one) { return one.source.kind == Source::Kind::building; });
            if (all_in_chains)
                CHECK(found_by_verifier(site, extension.extended.plan, anew) == std::vector<std::string>{});
            if (extension.interruption) continue;
            CHECK(ends_of_links(with_buildings(site, count), plan.plan, plan.strands) ==
                  ends_of_links(with_buildings(site, count), extension.extended.plan,
                                kept_strands(site, extension.extended.plan, extension.strand_map)));
        }
    }
    MESSAGE("sites ", sites, " hung ", hung, " swapped ", swapped, " inserted ", inserted);
    CHECK(sites > effort(300) / 2);
    CHECK(hung > effort(300) / 25);
    CHECK(swapped > 0);
    CHECK(inserted > 0);
}

}  // namespace spadework
