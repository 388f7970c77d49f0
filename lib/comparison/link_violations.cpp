#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include "comparison/verification_parts.hpp"

namespace spadework::verification {

namespace {

/// Room for the rounding of sums of decimal fractions.
constexpr double rounding_db = 1e-6;

std::string name_of_link(const Scenario& scenario, const PlannedLink& link) {
    return fmt::format("Link {} of building {}", link.number, item(scenario.buildings, link.building).id);
}

PlaceIndex place_of(const Scenario& scenario, BuildingIndex building) {
    return item(scenario.buildings, building).place;
}

bool is_served_at(const Plan& plan, PlaceIndex place, BuildingIndex building) {
    return std::any_of(plan.enclosures.begin(), plan.enclosures.end(), [&](const PlannedEnclosure& enclosure) {
        return enclosure.place == place &&
               std::find(enclosure.serves.begin(), enclosure.serves.end(), building) != enclosure.serves.end();
    });
}

/// Follows the link's cables end to end; between two of them must be an enclosure that serves the building, or
/// the splices where a trunk was cut.
void check_path(const Scenario& scenario, const Plan& plan, const PlannedLink& link, Sentences& found) {
    PlaceIndex at = link.from ? place_of(scenario, *link.from) : scenario.hub.place;
    bool joined = !link.cables.empty();
    for (std::size_t i = 0; i < link.cables.size(); ++i) {
        const PlannedCable& cable = item(plan.cables, link.cables[i]);
        joined = joined && cable.from == at;
        const bool spliced_on = i > 0 && cable.spliced_to == link.cables[i - 1];
        joined = joined && (i == 0 || spliced_on || is_served_at(plan, at, link.building));
        at = cable.to;
    }
    if (joined && at == place_of(scenario, link.building)) return;
    found.push_back(fmt::format("{} does not reach it from where it begins.", name_of_link(scenario, link)));
}

/// Splices at the two ends of one of a link's cables, apart from those where the light goes on into the next part of a
/// trunk, which count once: pigtails at ends that are not factory-made.
int splices_at_ends(const Scenario& scenario, const Plan& plan, const PlannedLink& link, std::size_t i) {
    const bool factory = scenario.rules.termination == Termination::factory;
    const int index = link.cables[i];
    const bool came_from = i > 0 && item(plan.cables, index).spliced_to == link.cables[i - 1];
    const bool goes_on = i + 1 < link.cables.size() && item(plan.cables, link.cables[i + 1]).spliced_to == index;
    const bool cut_behind = std::any_of(plan.cables.begin(), plan.cables.end(),
                                        [&](const PlannedCable& cable) { return cable.spliced_to == index; });
    int splices = came_from || !factory ? 1 : 0;
    if (!goes_on && (cut_behind || !factory)) ++splices;
    return splices;
}

void check_glass(const Scenario& scenario, const Plan& plan, const PlannedLink& link, Sentences& found) {
    const bool factory = scenario.rules.termination == Termination::factory;
    std::int64_t millimetres = 0;
    int splices = 0;
    int pairs = 1;
    for (std::size_t i = 0; i < link.cables.size(); ++i) {
        const PlannedCable& cable = item(plan.cables, link.cables[i]);
        millimetres += (factory ? cable.lengths.ordered : cable.lengths.with_slack).millimetres();
        splices += cable.lengths.joints + splices_at_ends(scenario, plan, link, i);
        if (i == 0 || cable.spliced_to != link.cables[i - 1]) ++pairs;
    }
    if (millimetres != link.glass.millimetres()) {
        found.push_back(fmt::format("{} runs through {} mm of fibre, not {} mm.", name_of_link(scenario, link),
                                    millimetres, link.glass.millimetres()));
    }
    if (pairs != link.mated_pairs || splices != link.splices) {
        found.push_back(fmt::format("{} passes {} mated pairs and {} splices, not {} and {}.",
                                    name_of_link(scenario, link), pairs, splices, link.mated_pairs, link.splices));
    }
}

/// What attenuators take of each direction, dB: one by the receiver alone of two strands, any one of a single strand.
struct Weakened {
    double to_building = 0;
    double to_hub = 0;
};

Weakened weakened(const Scenario& scenario, const PlannedLink& link) {
    const double start =
        link.attenuator_at_start ? item(scenario.catalogue.attenuators, *link.attenuator_at_start).loss_db : 0;
    const double end =
        link.attenuator_at_end ? item(scenario.catalogue.attenuators, *link.attenuator_at_end).loss_db : 0;
    if (link.strands == 1) return {start + end, start + end};
    return {end, start};
}

bool direction_holds(const Scenario& scenario, const PlannedLink& link, const OpticalFigures& figures,
                     double attenuator) {
    const LossRules& rules = scenario.rules.loss;
    const double per_km =
        figures.wavelength_nm >= 1530 ? rules.attenuation_1550_db_per_km : rules.attenuation_1310_db_per_km;
    const double fibre = per_km * static_cast<double>(link.glass.millimetres()) / 1e6;
    const double loss =
        fibre + rules.mated_pair_db * link.mated_pairs + rules.splice_db * link.splices + rules.spare_margin_db;
    const double weakest = figures.launch_min_dbm - figures.penalties_db - loss - attenuator;
    const double strongest = figures.launch_max_dbm - fibre - attenuator;
    return weakest >= figures.receive_min_dbm - rounding_db && strongest <= figures.receive_max_dbm + rounding_db;
}

void check_optic(const Scenario& scenario, const PlannedLink& link, Sentences& found) {
    const OpticProduct& optic = item(scenario.catalogue.optics, link.optic);
    const bool fits = optic.rate >= link.rate && optic.strand_use == scenario.rules.strand_use &&
                      optic.reach >= link.glass && optic.least_length <= link.glass;
    const Weakened behind = weakened(scenario, link);
    const bool heard = direction_holds(scenario, link, optic.to_building, behind.to_building) &&
                       direction_holds(scenario, link, optic.to_hub, behind.to_hub);
    if (!fits || !heard)
        found.push_back(fmt::format("Optic {} does not carry {}.", optic.id, name_of_link(scenario, link)));
    const int strands = scenario.rules.strand_use == StrandUse::duplex ? 2 : 1;
    if (link.strands != strands) {
        found.push_back(
            fmt::format("{} uses {} strands, not {}.", name_of_link(scenario, link), strands, link.strands));
    }
}

/// Rates of the links that end at each building, ascending.
std::map<BuildingIndex, std::vector<BitRate>> rates_served(const Scenario& scenario, const Plan& plan,
                                                           Sentences& found) {
    std::map<BuildingIndex, std::vector<BitRate>> rates;
    std::set<std::pair<BuildingIndex, int>> numbers;
    for (const PlannedLink& link : plan.links) {
        rates[link.building].push_back(link.rate);
        if (!numbers.insert({link.building, link.number}).second) {
            found.push_back(fmt::format("{} is there twice.", name_of_link(scenario, link)));
        }
    }
    for (auto& [building, list] : rates)
        std::sort(list.begin(), list.end());
    return rates;
}

std::vector<BitRate> rates_wanted(const Building& building) {
    std::vector<BitRate> rates;
    for (const LinkDemand& demand : building.links)
        rates.insert(rates.end(), static_cast<std::size_t>(std::max(0, demand.count)), demand.rate);
    std::sort(rates.begin(), rates.end());
    return rates;
}

/// Whether buildings hang one on another.
bool in_chains(const Plan& plan) {
    return plan.layout == LayoutKind::daisy_chain || plan.layout == LayoutKind::ring;
}

/// In a chain a building may have more and faster links than it asks for, never fewer or slower.
bool serves(const std::vector<BitRate>& have, const std::vector<BitRate>& want, bool chain) {
    if (!chain) return have == want;
    if (have.size() < want.size()) return false;
    for (std::size_t i = 1; i <= want.size(); ++i) {
        if (have[have.size() - i] < want[want.size() - i]) return false;
    }
    return true;
}

void check_served(const Scenario& scenario, const Plan& plan, Sentences& found) {
    auto rates = rates_served(scenario, plan, found);
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const Building& building = scenario.buildings[b];
        if (serves(rates[static_cast<BuildingIndex>(b)], rates_wanted(building), in_chains(plan))) continue;
        found.push_back(fmt::format("Building {} does not have the links it asks for.", building.id));
    }
}

/// Who stands before each building in its chain; the hub is nothing.
using Before = std::map<BuildingIndex, std::optional<BuildingIndex>>;

Before chain_order(const Scenario& scenario, const Plan& plan, Sentences& found) {
    Before before;
    for (const auto& chain : plan.chains) {
        std::optional<BuildingIndex> last;
        if (static_cast<int>(chain.size()) > scenario.rules.hop_limit) {
            found.push_back(fmt::format("A chain has {} buildings, more than the {} allowed.", chain.size(),
                                        scenario.rules.hop_limit));
        }
        for (const BuildingIndex building : chain) {
            if (!before.emplace(building, last).second) {
                found.push_back(fmt::format("Building {} is in a chain twice.", item(scenario.buildings, building).id));
            }
            last = building;
        }
    }
    if (before.size() != scenario.buildings.size()) found.emplace_back("The chains do not hold every building.");
    return before;
}

/// A link over a closing cable, from the hub; ring_violations() sees whether it ends where a ring does.
bool closes_ring(const Plan& plan, const PlannedLink& link) {
    return plan.layout == LayoutKind::ring && !link.from && link.cables.size() == 1 &&
           item(plan.cables, link.cables.front()).role == CableRole::closing;
}

void check_chains(const Scenario& scenario, const Plan& plan, Sentences& found) {
    const Before before = chain_order(scenario, plan, found);
    for (const PlannedLink& link : plan.links) {
        const auto entry = before.find(link.building);
        if (entry == before.end() || entry->second == link.from || closes_ring(plan, link)) continue;
        found.push_back(fmt::format("{} does not begin at the building before it.", name_of_link(scenario, link)));
    }
}

void check_roles(const Scenario& scenario, const Plan& plan, Sentences& found) {
    const bool chain = in_chains(plan);
    const bool trunk = plan.layout == LayoutKind::trunk || plan.layout == LayoutKind::trunk_one;
    for (const PlannedCable& cable : plan.cables) {
        const bool closing = cable.role == CableRole::closing && plan.layout == LayoutKind::ring;
        const bool hop = cable.role == CableRole::hop || closing;
        if (hop != chain || (trunk && cable.role == CableRole::home_run)) {
            found.push_back(fmt::format("Cable {} has no part in its layout.", cable.id));
        }
        if (cable.building && cable.to != place_of(scenario, *cable.building)) {
            found.push_back(fmt::format("Cable {} does not end at its building.", cable.id));
        }
    }
    if (chain) return;
    if (!plan.chains.empty()) found.emplace_back("A layout without chains has one.");
    for (const PlannedLink& link : plan.links) {
        if (link.from) found.push_back(fmt::format("{} begins at a building.", name_of_link(scenario, link)));
    }
}

}  // namespace

Sentences link_violations(const Scenario& scenario, const Plan& plan) {
    Sentences found;
    if (plan.strand_use != scenario.rules.strand_use)
        found.emplace_back("The plan's strand use is not the one asked for.");
    for (const PlannedLink& link : plan.links) {
        check_path(scenario, plan, link, found);
        check_glass(scenario, plan, link, found);
        check_optic(scenario, link, found);
    }
    check_served(scenario, plan, found);
    check_roles(scenario, plan, found);
    if (in_chains(plan)) check_chains(scenario, plan, found);
    return found;
}

}  // namespace spadework::verification
