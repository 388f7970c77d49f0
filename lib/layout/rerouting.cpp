#include "layout/rerouting.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "graph/saturating.hpp"
#include "layout/added_cable.hpp"
#include "layout/least_costs.hpp"
#include "layout/service_figures.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

PlaceIndex place_of(const Scenario& scenario, BuildingIndex building) {
    return scenario.buildings[static_cast<std::size_t>(building)].place;
}

/// Buildings of a layout are in order, but one may be missing.
template <class Routed>
auto& routed_of(Routed& routed, BuildingIndex building) {
    return *std::find_if(routed.buildings.begin(), routed.buildings.end(),
                         [building](const RoutedBuilding& b) { return b.building == building; });
}

/// What all cables but one building's open.
std::set<Step> opened_by_others(const RoutedLayout& routed, BuildingIndex building) {
    std::set<Step> open;
    for (const RoutedEnclosure& enclosure : routed.enclosures)
        open.insert(enclosure.trunk.steps.begin(), enclosure.trunk.steps.end());
    for (const RoutedBuilding& other : routed.buildings) {
        if (other.building != building) open.insert(other.route.steps.begin(), other.route.steps.end());
    }
    return open;
}

/// Enclosures that serve nobody are not built; the others keep their order.
void drop_idle_enclosures(RoutedLayout& routed) {
    std::vector<int> number(routed.enclosures.size(), -1);
    for (const RoutedBuilding& building : routed.buildings) {
        if (building.served_by >= 0) number[static_cast<std::size_t>(building.served_by)] = 0;
    }
    std::vector<RoutedEnclosure> kept;
    for (std::size_t e = 0; e < number.size(); ++e) {
        if (number[e] < 0) continue;
        number[e] = static_cast<int>(kept.size());
        kept.push_back(std::move(routed.enclosures[e]));
    }
    routed.enclosures = std::move(kept);
    for (RoutedBuilding& building : routed.buildings) {
        if (building.served_by >= 0) building.served_by = number[static_cast<std::size_t>(building.served_by)];
    }
}

std::optional<CableFigures> figures_of_cable(const Scenario& scenario, const Network& network, int links) {
    const int in_use = links * strands_per_link(scenario.rules.strand_use);
    return cable_figures(scenario, network.scale, drop_need(in_use, scenario.rules));
}

/// Lays a building's cable anew by the cheapest way from a place; false where there is none.
bool lay(const Scenario& scenario, const Network& network, const CableFigures& cable, PlaceIndex from,
         BuildingIndex building, RoutedLayout& routed) {
    const PlaceIndex to = place_of(scenario, building);
    const AddedCable added(network, cable, opened_by_others(routed, building), from);
    if (!added.cost_to(to)) return false;
    routed_of(routed, building).route = route_along(network, added.way_to(to), from, to);
    return true;
}

/// Where a building stands in the chains.
struct ChainPlace {
    std::size_t chain = 0;
    std::size_t position = 0;
};

std::optional<ChainPlace> find_in_chains(const RoutedLayout& routed, BuildingIndex building) {
    for (std::size_t c = 0; c < routed.chains.size(); ++c) {
        const auto& chain = routed.chains[c];
        const auto found = std::find(chain.begin(), chain.end(), building);
        if (found != chain.end()) return ChainPlace{c, static_cast<std::size_t>(found - chain.begin())};
    }
    return std::nullopt;
}

PlaceIndex start_of_hop(const Scenario& scenario, const RoutedLayout& routed, const ChainPlace& at) {
    return at.position == 0 ? scenario.hub.place : place_of(scenario, routed.chains[at.chain][at.position - 1]);
}

bool lay_hop(const Scenario& scenario, const Network& network, const CableFigures& hop, const ChainPlace& at,
             RoutedLayout& routed) {
    const PlaceIndex from = start_of_hop(scenario, routed, at);
    return lay(scenario, network, hop, from, routed.chains[at.chain][at.position], routed);
}

/// Takes a building out of its chain and joins its neighbours. Where the chain is then empty it stays so.
bool take_out(const Scenario& scenario, const Network& network, const CableFigures& hop, BuildingIndex building,
              RoutedLayout& routed) {
    const auto at = find_in_chains(routed, building);
    if (!at) return false;
    auto& chain = routed.chains[at->chain];
    chain.erase(chain.begin() + static_cast<std::ptrdiff_t>(at->position));
    std::erase_if(routed.buildings, [building](const RoutedBuilding& b) { return b.building == building; });
    return at->position == chain.size() || lay_hop(scenario, network, hop, *at, routed);
}

/// Puts a building into a chain at a position and lays the hops to it and from it.
bool put_in(const Scenario& scenario, const Network& network, const CableFigures& hop, BuildingIndex building,
            const ChainPlace& at, RoutedLayout& routed) {
    auto& chain = routed.chains[at.chain];
    chain.insert(chain.begin() + static_cast<std::ptrdiff_t>(at.position), building);
    const auto behind = std::find_if(routed.buildings.begin(), routed.buildings.end(),
                                     [building](const RoutedBuilding& b) { return b.building > building; });
    routed.buildings.insert(behind, {building, -1, {}});
    if (!lay_hop(scenario, network, hop, at, routed)) return false;
    return at.position + 1 == chain.size() || lay_hop(scenario, network, hop, {at.chain, at.position + 1}, routed);
}

void drop_empty_chains(RoutedLayout& routed) {
    std::erase_if(routed.chains, [](const std::vector<BuildingIndex>& chain) { return chain.empty(); });
}

/// What a building's hop pays along its way, its trenches open.
graph::Cost paid_along(const Network& network, const CableFigures& hop, const RoutedBuilding& building) {
    graph::Cost cost = 0;
    for (const Step& step : building.route.steps) {
        const auto edge = std::lower_bound(network.origin.begin(), network.origin.end(), step.segment,
                                           [](const NetworkEdge& e, SegmentIndex s) { return e.segment < s; });
        if (edge == network.origin.end() || edge->segment != step.segment) continue;
        const auto& priced = network.edges[static_cast<std::size_t>(edge - network.origin.begin())];
        cost = graph::add(cost, graph::path_charge({0, hop.weight, hop.multiplicity}, priced));
    }
    return cost;
}

/// Every place in the chains that still has room, cheapest first by what the hops to and from there would cost.
std::vector<ChainPlace> chain_places(const Scenario& scenario, const Network& network, const CableFigures& hop,
                                     BuildingIndex building, const RoutedLayout& routed) {
    const AddedCable added(network, hop, opened_by_others(routed, building), place_of(scenario, building));
    std::vector<std::pair<graph::Cost, std::pair<std::size_t, std::size_t>>> order;
    for (std::size_t c = 0; c < routed.chains.size(); ++c) {
        const auto& chain = routed.chains[c];
        if (static_cast<int>(chain.size()) >= std::max(1, scenario.rules.hop_limit)) continue;
        for (std::size_t p = 0; p <= chain.size(); ++p) {
            const auto cost_to = [&](PlaceIndex at) { return added.cost_to(at).value_or(graph::kLargestCost); };
            graph::Cost cost = cost_to(start_of_hop(scenario, routed, {c, p}));
            if (p < chain.size()) {
                cost = graph::add(cost, cost_to(place_of(scenario, chain[p])));
                cost -= paid_along(network, hop, routed_of(routed, chain[p]));
            }
            order.push_back({cost, {c, p}});
        }
    }
    std::sort(order.begin(), order.end());
    std::vector<ChainPlace> places;
    for (const auto& [cost, at] : order)
        places.push_back({at.first, at.second});
    return places;
}

BuildingIndex renumbered(BuildingIndex building, BuildingIndex gone) {
    return building > gone ? building - 1 : building;
}

}  // namespace

RoutedLayout routes_of(const Plan& plan) {
    RoutedLayout routed;
    routed.kind = plan.layout;
    routed.chains = plan.chains;
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        const PlannedCable& trunk = plan.cables[static_cast<std::size_t>(enclosure.trunks.front())];
        routed.enclosures.push_back({enclosure.place, {trunk.from, trunk.to, trunk.steps}});
    }
    std::set<BuildingIndex> done;
    for (const PlannedCable& cable : plan.cables) {
        const bool serves =
            cable.role == CableRole::home_run || cable.role == CableRole::drop || cable.role == CableRole::hop;
        if (!serves || !done.insert(*cable.building).second) continue;
        const int served_by = cable.role == CableRole::drop ? *cable.enclosure : -1;
        routed.buildings.push_back({*cable.building, served_by, {cable.from, cable.to, cable.steps}});
    }
    for (const std::vector<BuildingIndex>& chain : plan.chains) {
        for (const PlannedCable& cable : plan.cables) {
            if (cable.role != CableRole::closing || cable.building != chain.back()) continue;
            routed.closings.push_back({cable.from, cable.to, cable.steps});
            break;
        }
    }
    std::sort(routed.buildings.begin(), routed.buildings.end(),
              [](const RoutedBuilding& a, const RoutedBuilding& b) { return a.building < b.building; });
    return routed;
}

Scenario without_building(const Scenario& scenario, BuildingIndex building) {
    Scenario fewer = scenario;
    fewer.buildings.erase(fewer.buildings.begin() + building);
    return fewer;
}

Scenario without_segment(const Scenario& scenario, SegmentIndex segment) {
    Scenario fewer = scenario;
    fewer.segments[static_cast<std::size_t>(segment)].ban = "barred, to see what it saves";
    return fewer;
}

std::optional<RoutedLayout> routes_without(const Scenario& scenario, const Network& network, const RoutedLayout& routed,
                                           BuildingIndex building) {
    if (routed.buildings.size() < 2) return std::nullopt;
    RoutedLayout fewer = routed;
    if (routed.kind == LayoutKind::daisy_chain) {
        const auto hop = figures_of_cable(scenario, network, links_per_hop(scenario));
        if (!hop || !take_out(scenario, network, *hop, building, fewer)) return std::nullopt;
        drop_empty_chains(fewer);
    } else {
        std::erase_if(fewer.buildings, [building](const RoutedBuilding& b) { return b.building == building; });
        drop_idle_enclosures(fewer);
    }
    for (RoutedBuilding& other : fewer.buildings)
        other.building = renumbered(other.building, building);
    for (std::vector<BuildingIndex>& chain : fewer.chains) {
        for (BuildingIndex& other : chain)
            other = renumbered(other, building);
    }
    return fewer;
}

std::optional<RoutedLayout> routes_served_from(const Scenario& scenario, const Network& network,
                                               const RoutedLayout& routed, BuildingIndex building, int from) {
    const int links = link_count(scenario.buildings[static_cast<std::size_t>(building)]);
    const auto cable = figures_of_cable(scenario, network, links);
    if (!cable) return std::nullopt;
    RoutedLayout other = routed;
    routed_of(other, building).served_by = from;
    const PlaceIndex start = from < 0 ? scenario.hub.place : routed.enclosures[static_cast<std::size_t>(from)].place;
    if (!lay(scenario, network, *cable, start, building, other)) return std::nullopt;
    drop_idle_enclosures(other);
    return other;
}

std::optional<RoutedLayout> routes_with_other_hop(const Scenario& scenario, const Network& network,
                                                  const RoutedLayout& routed, BuildingIndex building) {
    const auto hop = figures_of_cable(scenario, network, links_per_hop(scenario));
    const auto at = find_in_chains(routed, building);
    RoutedLayout other = routed;
    if (!hop || !at || !lay_hop(scenario, network, *hop, *at, other)) return std::nullopt;
    return other;
}

std::vector<RoutedLayout> routes_elsewhere_in_chain(const Scenario& scenario, const Network& network,
                                                    const RoutedLayout& routed, BuildingIndex building,
                                                    std::size_t most) {
    std::vector<RoutedLayout> others;
    const auto hop = figures_of_cable(scenario, network, links_per_hop(scenario));
    const auto now = find_in_chains(routed, building);
    RoutedLayout rest = routed;
    if (!hop || !now || !take_out(scenario, network, *hop, building, rest)) return others;
    if (!rest.chains[now->chain].empty()) rest.chains.emplace_back();
    for (const ChainPlace& at : chain_places(scenario, network, *hop, building, rest)) {
        if (others.size() >= most) break;
        if (at.chain == now->chain && at.position == now->position) continue;
        RoutedLayout other = rest;
        if (!put_in(scenario, network, *hop, building, at, other)) continue;
        drop_empty_chains(other);
        others.push_back(std::move(other));
    }
    return others;
}

}  // namespace spadework
