#include "extension/chain_ends.hpp"

#include <algorithm>

namespace spadework {

namespace {

bool hangs_on(const RoutedAddition& addition, BuildingIndex building) {
    return addition.source.kind == Source::Kind::building && addition.source.building == building;
}

/// Behind the building it hangs on, where that is the last of a chain already and this one is in none.
bool hang(const RoutedAddition& addition, Plan& plan) {
    if (addition.source.kind != Source::Kind::building) return false;
    for (const std::vector<BuildingIndex>& chain : plan.chains) {
        if (std::find(chain.begin(), chain.end(), addition.building) != chain.end()) return false;
    }
    for (std::vector<BuildingIndex>& chain : plan.chains) {
        if (chain.empty() || chain.back() != addition.source.building) continue;
        chain.push_back(addition.building);
        return true;
    }
    return false;
}

void note_interrupted(const ExtensionTask& task, BuildingIndex building, ExtendedPlan& extended) {
    for (std::size_t l = 0; l < task.built.links.size(); ++l) {
        const PlannedLink& link = task.built.links[l];
        if (link.building == building || link.from == building) extended.interrupted.push_back(static_cast<int>(l));
    }
}

/// "" or why the building's gear, there already, cannot take what hangs on it now.
std::string find_ports(const ExtensionTask& task, BuildingIndex index, ExtendedPlan& extended) {
    const Building& building = task.scenario.buildings[static_cast<std::size_t>(index)];
    std::vector<PlannedGear>& all = extended.plan.building_gear;
    const auto gear =
        std::find_if(all.begin(), all.end(), [&](const PlannedGear& one) { return one.building == index; });
    if (gear == all.end()) return "building " + building.id + " has no gear";
    const GearNeed need = gear_need(index, {}, extended.plan, {});
    const auto& product = task.scenario.catalogue.building_gear[static_cast<std::size_t>(gear->pieces.product)];
    if (product.optic_ports >= need.optic_ports && product.fastest_rate >= need.rate) return "";
    if (!task.may_swap_gear)
        return "the gear of building " + building.id + " has no optic port free that is fast enough";
    const auto larger = cheapest_building_gear(task.scenario, building, need);
    if (!larger) return why_no_gear(building, need);
    gear->pieces = *larger;
    extended.swapped.push_back(static_cast<int>(gear - all.begin()));
    note_interrupted(task, index, extended);
    return "";
}

}  // namespace

GearNeed gear_need(BuildingIndex building, const RoutedExtension& routed, const Plan& plan, const LinksOf& links_of) {
    GearNeed need{0, BitRate()};
    for (const PlannedLink& link : plan.links) {
        if (link.building != building && link.from != building) continue;
        ++need.optic_ports;
        need.rate = std::max(need.rate, link.rate);
    }
    for (const RoutedAddition& later : routed.additions) {
        const bool in_plan = std::any_of(plan.links.begin(), plan.links.end(),
                                         [&](const PlannedLink& link) { return link.building == later.building; });
        if (!hangs_on(later, building) || in_plan) continue;
        for (const LinkDemand& demand : links_of(later)) {
            need.optic_ports += demand.count;
            need.rate = std::max(need.rate, demand.rate);
        }
    }
    // What is put behind it in a chain has the links that it has itself.
    if (routed.reconnection && routed.reconnection->behind == building) need.optic_ports *= 2;
    return need;
}

std::string why_no_gear(const Building& building, const GearNeed& need) {
    return "building " + building.id + ": no gear in the catalogue has " + std::to_string(need.optic_ports) +
           " optic ports at " + to_text(need.rate) + " with the ports and power its devices need";
}

std::string hang_on_chains_of(const ExtensionTask& task, const RoutedExtension& routed, ExtendedPlan& extended) {
    for (bool again = true; again;) {
        again = false;
        for (const RoutedAddition& addition : routed.additions)
            again = hang(addition, extended.plan) || again;
    }
    for (const RoutedAddition& addition : routed.additions) {
        if (addition.source.kind != Source::Kind::building) continue;
        const BuildingIndex on = addition.source.building;
        const bool is_new = std::any_of(routed.additions.begin(), routed.additions.end(),
                                        [&](const RoutedAddition& one) { return one.building == on; });
        const std::string reason = is_new ? "" : find_ports(task, on, extended);
        if (!reason.empty()) return reason;
    }
    return "";
}

}  // namespace spadework
