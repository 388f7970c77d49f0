#include "graph/chain_bound.hpp"

#include <algorithm>
#include <cmath>

#include "graph/chain_figures.hpp"
#include "graph/chain_hop_bound.hpp"
#include "graph/pair_routes_tree.hpp"
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

/// Groups of more stops than one chain holds that hang on one vertex of the plan's open edges.
std::vector<StopGroup> groups_in(const ChainProblem& problem, const pair_routes::Network& network,
                                 const ChainPlan& plan) {
    std::vector<char> used(problem.edges.size(), 0);
    for (const auto& chain : plan.chains) {
        for (const ChainPlan::Hop& hop : chain) {
            for (const EdgeId e : hop.path)
                used[e] = 1;
        }
    }
    std::vector<EdgeId> open;
    for (std::size_t e = 0; e < used.size(); ++e) {
        if (used[e]) open.push_back(static_cast<EdgeId>(e));
    }
    const auto tree = rooted(network, open, problem.source);
    std::vector<StopGroup> below(tree.vertex.size());
    for (std::size_t s = 0; s < problem.stops.size(); ++s)
        below[tree.place[problem.stops[s]]].push_back(static_cast<std::int32_t>(s));
    std::vector<StopGroup> groups;
    for (std::int32_t p = tree.count() - 1; p > 0; --p) {
        StopGroup& above = below[tree.parent[p]];
        const bool all_of_parent = above.empty() && tree.size[tree.parent[p]] == tree.size[p] + 1;
        if (!all_of_parent && below[p].size() > static_cast<std::size_t>(problem.longest_chain)) {
            groups.push_back(below[p]);
        }
        above.insert(above.end(), below[p].begin(), below[p].end());
    }
    return groups;
}

}  // namespace

Cost lower_bound(const ChainProblem& problem, const ChainPlan& plan, const SolveLimits& limits) {
    PartProgress part(limits.progress);
    SolveLimits own = limits;
    own.progress = &part;
    own.seconds = limits.seconds / 2;
    const SharedCostSolution trenches = solve(one_cable_an_edge(problem, 0), own);
    if (!trenches.plan) return kLargestCost;
    const pair_routes::Network network(problem.vertex_count, problem.edges);
    const Cost hops =
        least_hops(shortest_hops(problem, network), groups_in(problem, network, plan), plan.value - trenches.bound);
    const Cost apart = trenches.bound + hops;
    const auto gap = static_cast<double>(plan.value - apart);
    if (gap <= limits.target_gap * std::abs(static_cast<double>(plan.value))) return apart;
    const SharedCostProblem one_cable = one_cable_an_edge(problem, 1);
    if (cost_of(one_cable, *trenches.plan).value_or(0) + least_for_chains(problem) <= apart) return apart;
    const SharedCostSolution joined = solve(one_cable, own);
    return std::max(apart, joined.bound + least_for_chains(problem));
}

}  // namespace spadework::graph::chains
