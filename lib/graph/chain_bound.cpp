#include "graph/chain_bound.hpp"

#include <algorithm>

#include "graph/chain_figures.hpp"
#include "graph/chain_hop_bound.hpp"
#include "graph/two_level_relaxation.hpp"

namespace spadework::graph::chains {

namespace {

/// What all chains together pay and save at least, whatever their number.
Cost least_for_chains(const ChainProblem& problem) {
    const auto stops = static_cast<Cost>(problem.stops.size());
    const Cost fewest = (stops + problem.longest_chain - 1) / problem.longest_chain;
    const Cost a_chain = problem.chain_cost - problem.end_saving;
    return a_chain >= 0 ? fewest * a_chain : stops * a_chain;
}

/// Joins source and stops where every open edge carries one cable. No plan opens edges more cheaply.
SharedCostProblem one_cable_an_edge(const ChainProblem& problem, Cost cables) {
    SharedCostProblem joined;
    joined.vertex_count = problem.vertex_count;
    joined.edges = problem.edges;
    for (SharedCostEdge& edge : joined.edges)
        edge.opening += cables * hop_charge(problem).on(edge);
    for (const VertexId stop : problem.stops)
        joined.demands.push_back({stop, 0, 0});
    joined.roots = {{problem.source, 0}};
    return joined;
}

HopCosts shortest_hops(const ChainProblem& problem, const pair_routes::Network& network) {
    HopCosts costs;
    costs.stops = static_cast<std::int32_t>(problem.stops.size());
    costs.a_chain = problem.chain_cost - problem.end_saving;
    costs.longest_chain = problem.longest_chain;
    const auto from_source = two_level::distances_from(network, problem.source, hop_charge(problem));
    for (const VertexId stop : problem.stops) {
        costs.from_source.push_back(from_source[stop]);
        const auto from_stop = two_level::distances_from(network, stop, hop_charge(problem));
        for (const VertexId other : problem.stops)
            costs.between.push_back(from_stop[other]);
    }
    return costs;
}

}  // namespace

Cost lower_bound(const ChainProblem& problem, Cost target, const SolveLimits& limits) {
    SolveLimits own = limits;
    own.progress = nullptr;
    const SharedCostSolution trenches = solve(one_cable_an_edge(problem, 0), own);
    if (!trenches.plan) return kLargestCost;
    const pair_routes::Network network(problem.vertex_count, problem.edges);
    const Cost hops = least_hops(shortest_hops(problem, network), target - trenches.bound);
    const SharedCostSolution joined = solve(one_cable_an_edge(problem, 1), own);
    return std::max(trenches.bound + hops, joined.bound + least_for_chains(problem));
}

}  // namespace spadework::graph::chains
