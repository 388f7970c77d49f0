#include "layout/lit_chains.hpp"

#include <algorithm>

#include "strands/strand_need.hpp"

namespace spadework {

int longest_chain(const Scenario& scenario) {
    return std::max(1, scenario.rules.hop_limit);
}

int least_chain_count(const Scenario& scenario) {
    const int buildings = static_cast<int>(scenario.buildings.size());
    return (buildings + longest_chain(scenario) - 1) / longest_chain(scenario);
}

LeastCost hub_for_ends(const Scenario& scenario, int ends) {
    return least_hub_cost(scenario, ends * links_per_hop(scenario), fastest_rate(scenario));
}

Money dearest_ends(const Scenario& scenario, int ends) {
    const int ports = scenario.hub.free_optic_ports + ends * links_per_hop(scenario);
    return least_hub_cost(scenario, ports, fastest_rate(scenario)).cost;
}

std::optional<CableFigures> hop_figures(const Scenario& scenario, const CostScale& scale) {
    const int in_use = links_per_hop(scenario) * strands_per_link(scenario.rules.strand_use);
    return cable_figures(scenario, scale, drop_need(in_use, scenario.rules));
}

PlaceIndex add_chain(const std::vector<graph::ChainPlan::Hop>& hops, const Network& network, const Scenario& scenario,
                     RoutedLayout& routed) {
    std::vector<BuildingIndex> buildings;
    PlaceIndex from = scenario.hub.place;
    for (const graph::ChainPlan::Hop& hop : hops) {
        const PlaceIndex to = scenario.buildings[static_cast<std::size_t>(hop.stop)].place;
        routed.buildings.push_back({hop.stop, -1, route_along(network, hop.path, from, to)});
        buildings.push_back(hop.stop);
        from = to;
    }
    routed.chains.push_back(std::move(buildings));
    return from;
}

void sort_by_building(RoutedLayout& routed) {
    std::sort(routed.buildings.begin(), routed.buildings.end(),
              [](const RoutedBuilding& a, const RoutedBuilding& b) { return a.building < b.building; });
}

}  // namespace spadework
