// A building joins a random site: what was plugged before stays where it is.

#include <limits>
#include <map>
#include <tuple>

#include <doctest/doctest.h>

#include "comparison/verification.hpp"
#include "layout/design.hpp"
#include "support/effort.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using Leg = std::tuple<std::string, std::string, int, int>;

Scenario random_site(Dice& dice) {
    drawing::MapFamily family;
    family.buildings = static_cast<int>(dice.between(2, 5));
    family.places = family.buildings + static_cast<int>(dice.between(2, 6));
    family.segments = family.places + static_cast<int>(dice.between(0, 4));
    family.several_links = dice.one_in(2);
    Scenario site = drawing::random_map(dice, family);
    site.rules.most_enclosures = 2;
    site.rules.spare.drop_spare_least = static_cast<int>(dice.between(0, 2));
    site.rules.spare.trunk_spare_least = static_cast<int>(dice.between(0, 4));
    return site;
}

/// The site with one building more, on a segment of its own, before or after the others by id.
Scenario with_one_more(Scenario site, Dice& dice) {
    const auto from = static_cast<PlaceIndex>(dice.between(0, static_cast<int>(site.places.size()) - 1));
    const PlaceIndex at = drawing::add_place(site);
    drawing::add_segment(site, from, at, static_cast<double>(dice.between(5, 60)));
    drawing::add_building(site, at, static_cast<int>(dice.between(1, 3)));
    if (dice.one_in(2)) {
        Building newcomer = site.buildings.back();
        site.buildings.pop_back();
        newcomer.id = "a-first";
        site.buildings.insert(site.buildings.begin(), newcomer);
    }
    return site;
}

std::map<Leg, KeptStrand> by_leg(const std::vector<KeptStrand>& rows) {
    std::map<Leg, KeptStrand> legs;
    for (const KeptStrand& row : rows) {
        if (!row.building.empty()) legs.emplace(Leg(row.cable, row.building, row.link, row.leg), row);
    }
    return legs;
}

KeptMap kept_from(const Scenario& site, const LayoutResult& result) {
    KeptMap kept;
    for (const PlannedCable& cable : result.plan->cables) {
        kept.cables.push_back({cable.id, site.places[static_cast<std::size_t>(cable.from)].id,
                               site.places[static_cast<std::size_t>(cable.to)].id});
    }
    kept.strands = kept_strands(site, *result.plan, result.strand_map);
    return kept;
}

/// Cables of a plan by id, with the strands they have.
std::map<std::string, const PlannedCable*> cables_of(const Plan& plan) {
    std::map<std::string, const PlannedCable*> cables;
    for (const PlannedCable& cable : plan.cables)
        cables[cable.id] = &cable;
    return cables;
}

/// Adapters of the enclosure where a cable begins; any number where it begins elsewhere.
int adapters_where_it_begins(const Scenario& site, const Plan& plan, const PlannedCable& cable) {
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        if (enclosure.place != cable.from) continue;
        int adapters = 0;
        for (const Pieces& box : enclosure.products) {
            adapters += box.count * site.catalogue.enclosures[static_cast<std::size_t>(box.product)].adapters;
        }
        return adapters;
    }
    return std::numeric_limits<int>::max();
}

/// How many legs of the earlier plan stay, and whether all stay that can: those whose cable leads where it led, has as
/// many strands or more, and begins where their adapter is still to be had.
struct Stayed {
    int legs = 0;
    int compared = 0;
};

void compare_legs(const Scenario& site, const LayoutResult& before, const Scenario& grown, const LayoutResult& after,
                  Stayed& stayed) {
    const auto then = by_leg(kept_strands(site, *before.plan, before.strand_map));
    const auto now = by_leg(kept_strands(grown, *after.plan, after.strand_map));
    const auto cables_then = cables_of(*before.plan);
    const auto cables_now = cables_of(*after.plan);
    for (const auto& [leg, row] : then) {
        const auto cable = cables_now.find(row.cable);
        const auto same = now.find(leg);
        if (cable == cables_now.end() || same == now.end()) continue;
        const PlannedCable& was = *cables_then.at(row.cable);
        const bool leads_there = was.from == cable->second->from && was.to == cable->second->to;
        if (!leads_there || cable->second->product < was.product) continue;
        if (row.near_adapter > adapters_where_it_begins(grown, *after.plan, *cable->second)) continue;
        ++stayed.compared;
        CHECK(same->second.number == row.number);
        const bool stays = same->second.near_adapter == row.near_adapter &&
                           same->second.far_adapter == row.far_adapter && same->second.near_port == row.near_port &&
                           same->second.far_port == row.far_port;
        CHECK(stays);
        stayed.legs += stays ? 1 : 0;
    }
}

}  // namespace

TEST_CASE("adding a building moves no strand, adapter or port that was there, in any layout") {
    Stayed stayed;
    for (int round = 0; round < effort(40); ++round) {
        CAPTURE(round);
        Dice dice(7000 + static_cast<unsigned>(round));
        const Scenario site = random_site(dice);
        const Scenario grown = with_one_more(site, dice);
        for (const LayoutKind kind : {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::trunk,
                                      LayoutKind::mixed, LayoutKind::daisy_chain, LayoutKind::ring}) {
            CAPTURE(std::string(id_of(kind)));
            const LayoutResult before = assess(site, design(kind, site, {.seconds = 5}));
            if (!before.feasible()) continue;
            const LayoutResult after = assess(grown, design(kind, grown, {.seconds = 5}), kept_from(site, before));
            if (!after.feasible()) continue;
            CHECK(violations(grown, after).empty());
            CHECK_FALSE(after.kept.empty());
            compare_legs(site, before, grown, after, stayed);
        }
    }
    MESSAGE(stayed.legs << " of " << stayed.compared << " strands in use stay where they were");
    CHECK(stayed.compared > 200);
}

}  // namespace spadework
