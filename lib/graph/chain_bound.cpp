#include "graph/chain_bound.hpp"

#include <algorithm>
#include <cmath>

#include "graph/chain_cost_split.hpp"
#include "graph/chain_figures.hpp"
#include "graph/chain_hop_bound.hpp"
#include "graph/pair_routes_tree.hpp"
#include "graph/two_level_relaxation.hpp"

namespace spadework::graph::chains {

namespace {

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

std::vector<EdgeId> edges_of(const SharedCostPlan& plan) {
    std::vector<EdgeId> edges;
    for (const auto& path : plan.paths)
        edges.insert(edges.end(), path.begin(), path.end());
    std::sort(edges.begin(), edges.end());
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
    return edges;
}

/// Raises the bound to what a split proves: edges opened at the least, and hops at the least on what is left of their
/// charge. Nothing happens when the stops cannot all be joined.
void prove_with(const ChainProblem& problem, const CostSplit& split, const std::vector<StopGroup>& groups, Cost target,
                const SolveLimits& limits, ChainBound& bound) {
    const SharedCostSolution joined = solve(joining_problem(problem, split), limits);
    if (!joined.plan) return;
    bound.trees.push_back(edges_of(*joined.plan));
    const HopCosts hops = shortest_hops(hopping_problem(problem, split));
    bound.cost = std::max(bound.cost, joined.bound + least_hops(hops, groups, target - joined.bound));
}

}  // namespace

Cost least_for_chains(const ChainProblem& problem) {
    const auto stops = static_cast<Cost>(problem.stops.size());
    const Cost fewest = (stops + problem.longest_chain - 1) / problem.longest_chain;
    const Cost a_chain = problem.chain_cost - problem.end_saving;
    return a_chain >= 0 ? fewest * a_chain : stops * a_chain;
}

ChainBound lower_bound(const ChainProblem& problem, const ChainPlan& plan, const SolveLimits& limits) {
    PartProgress part(limits.progress);
    SolveLimits own = limits;
    own.progress = &part;
    own.seconds = limits.seconds / 3;
    const pair_routes::Network network(problem.vertex_count, problem.edges);
    const std::vector<StopGroup> groups = groups_in(problem, network, plan);
    ChainBound bound;
    bound.cost = least_for_chains(problem);
    prove_with(problem, good_split(problem, groups, plan.value, own), groups, plan.value, own, bound);
    const auto gap = static_cast<double>(plan.value - bound.cost);
    if (gap <= limits.target_gap * std::abs(static_cast<double>(plan.value))) return bound;

    CostSplit whole;
    for (const SharedCostEdge& edge : problem.edges)
        whole.push_back(hop_charge(problem).on(edge));
    const SharedCostProblem one_cable_an_edge = joining_problem(problem, whole);
    const SharedCostSolution near = sketch(one_cable_an_edge, own);
    if (!near.plan || near.plan->value + least_for_chains(problem) <= bound.cost)
        return bound;  // It cannot prove more.
    const SharedCostSolution joined = solve(one_cable_an_edge, own);
    if (!joined.plan) return bound;
    bound.trees.push_back(edges_of(*joined.plan));
    bound.cost = std::max(bound.cost, joined.bound + least_for_chains(problem));
    return bound;
}

}  // namespace spadework::graph::chains
