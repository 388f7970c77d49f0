#include "certificate/chain_check.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "certificate/chain_routes.hpp"
#include "certificate/edge_distances.hpp"
#include "certificate/two_ways.hpp"

namespace spadework::certificate {

namespace {

constexpr Wide most_money = 1'000'000'000'000'000'000;

/// What one hop's cable pays on an edge, in parts.
Wide hop_charge(const ChainEvidence& evidence, const CertifiedEdge& edge) {
    const Wide cable =
        static_cast<Wide>(evidence.weight) * edge.length + static_cast<Wide>(evidence.multiplicity) * edge.passage;
    return std::min(cable, most_charge) * evidence.proof.parts;
}

DirectedCharges no_charges(const ChainEvidence& evidence) {
    const std::vector<Wide> none(evidence.edges.size(), 0);
    return {none, none};
}

/// The sum of D: what joining each building costs under its own prices.
std::optional<Wide> joining_sum(const Scenario& scenario, const ChainEvidence& evidence, const EdgeDistances& paths) {
    Wide sum = 0;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        DirectedCharges charges = no_charges(evidence);
        add_prices(evidence.proof.joining_prices[b], charges);
        const auto ways = paths.to(scenario.buildings[b].place, charges);
        const auto& way = ways[static_cast<std::size_t>(scenario.hub.place)];
        if (!way) return std::nullopt;
        sum += *way;
    }
    return sum;
}

/// What each place's cheapest hop to another costs: the charge of hops, and prices whichever way it goes.
std::vector<std::optional<Wide>> hops_to(PlaceIndex target, const ChainEvidence& evidence,
                                         const std::vector<graph::EdgePrice>& prices, const EdgeDistances& paths) {
    DirectedCharges charges = no_charges(evidence);
    for (std::size_t e = 0; e < evidence.edges.size(); ++e)
        charges[0][e] = evidence.proof.hop_charges[e];
    for (const graph::EdgePrice& price : prices)
        charges[0][static_cast<std::size_t>(price.edge)] += price.price;
    charges[1] = charges[0];
    return paths.to(target, charges);
}

/// What a chain pays for ending at each building: its own cost and, where it is closed, the hop back to the hub.
std::vector<Wide> end_costs(const Scenario& scenario, const ChainEvidence& evidence, const EdgeDistances& paths,
                            Chains chains) {
    const Wide a_chain = (static_cast<Wide>(evidence.chain_cost) - evidence.end_saving) * evidence.proof.parts;
    std::vector<Wide> costs(scenario.buildings.size(), a_chain);
    if (chains == Chains::open) return costs;
    for (std::size_t b = 0; b < costs.size(); ++b) {
        const auto ways = hops_to(scenario.hub.place, evidence, evidence.proof.closing_prices[b], paths);
        costs[b] += *ways[static_cast<std::size_t>(scenario.buildings[b].place)];
    }
    return costs;
}

/// H: what the hop that arrives at each building costs, from each other and, last, from the hub.
HopCosts hop_costs(const Scenario& scenario, const ChainEvidence& evidence, const EdgeDistances& paths) {
    HopCosts costs;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const auto ways = hops_to(scenario.buildings[b].place, evidence, evidence.proof.arrival_prices[b], paths);
        std::vector<Wide>& from = costs.emplace_back();
        for (const Building& other : scenario.buildings)
            from.push_back(*ways[static_cast<std::size_t>(other.place)]);
        from.push_back(*ways[static_cast<std::size_t>(scenario.hub.place)]);
    }
    return costs;
}

/// Takes the price off every hop from outside the buildings to one of them. Gives back what plans earn so at least: a
/// chain holds `limit` of these buildings at most.
Wide earned_by_entering(const graph::EntryPrice& entry, int limit, HopCosts& hops) {
    const std::set<std::int32_t> inside(entry.stops.begin(), entry.stops.end());
    for (const std::int32_t to : inside) {
        std::vector<Wide>& from = hops[static_cast<std::size_t>(to)];
        for (std::size_t other = 0; other < from.size(); ++other) {
            if (!inside.contains(static_cast<std::int32_t>(other))) from[other] -= entry.price;
        }
    }
    const auto chains = (static_cast<int>(inside.size()) + limit - 1) / limit;
    return static_cast<Wide>(entry.price) * chains;
}

}  // namespace

std::string chain_price_fault(const Scenario& scenario, const ChainEvidence& evidence, Chains chains) {
    DirectedCharges joining = no_charges(evidence);
    DirectedCharges arriving = no_charges(evidence);
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        add_prices(evidence.proof.joining_prices[b], joining);
        add_prices(evidence.proof.arrival_prices[b], arriving);
        if (chains == Chains::closed) add_prices(evidence.proof.closing_prices[b], arriving);
    }
    for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
        const CertifiedEdge& edge = evidence.edges[e];
        const Wide cable = hop_charge(evidence, edge);
        const Wide hop = evidence.proof.hop_charges[e];
        const Wide limit = std::max(1, scenario.rules.hop_limit);
        const Wide passing = hop + (chains == Chains::closed ? limit * evidence.proof.pass_charges[e] : 0);
        const Wide may_pay = static_cast<Wide>(edge.opening) * evidence.proof.parts + cable - passing;
        const Wide joins =
            chains == Chains::closed ? joining[0][e] + joining[1][e] : std::max(joining[0][e], joining[1][e]);
        const Wide pays = joins + arriving[0][e] + arriving[1][e];
        if (passing <= cable && pays <= may_pay) continue;
        return fmt::format("the prices on segment {}, way {}, come to more than opening it and one cable cost",
                           scenario.segments[static_cast<std::size_t>(edge.segment)].id, edge.way);
    }
    return "";
}

std::optional<Money> chain_direct_bound(const Scenario& scenario, const ChainEvidence& evidence, Chains chains) {
    const EdgeDistances paths(scenario, evidence.edges);
    const auto joining =
        chains == Chains::closed ? two_ways_sum(scenario, evidence) : joining_sum(scenario, evidence, paths);
    if (!joining) return std::nullopt;
    Wide parts = *joining;
    for (const graph::Cost price : evidence.proof.visit_prices)
        parts += price;
    const int limit = std::max(1, scenario.rules.hop_limit);
    HopCosts hops = hop_costs(scenario, evidence, paths);
    for (const graph::EntryPrice& entry : evidence.proof.entry_prices)
        parts += earned_by_entering(entry, limit, hops);
    parts += least_routes(hops, evidence.proof.visit_prices, evidence.proof.neighbours, limit,
                          end_costs(scenario, evidence, paths, chains));
    Wide rebate = 0;
    for (const CertifiedEdge& edge : evidence.edges)
        rebate += static_cast<Wide>(edge.room_price) * std::max(0, edge.room);
    // A plan's cost is whole, so the parts are rounded up; what is below a minor unit is rounded down.
    const Wide units = parts / evidence.proof.parts + (parts % evidence.proof.parts > 0 ? 1 : 0) - rebate;
    const Wide whole =
        std::clamp<Wide>(units, -most_money * evidence.units_a_minor, most_money * evidence.units_a_minor);
    const Wide minor = whole / evidence.units_a_minor - (whole % evidence.units_a_minor < 0 ? 1 : 0);
    const Wide direct = std::clamp<Wide>(evidence.constant.minor() + minor, -most_money, most_money);
    return Money::from_minor(static_cast<std::int64_t>(direct));
}

}  // namespace spadework::certificate
