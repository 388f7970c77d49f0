#include "graph/chain_cost_split.hpp"

#include <algorithm>

#include "graph/chain_figures.hpp"
#include "graph/label_heap.hpp"
#include "graph/two_level_relaxation.hpp"

namespace spadework::graph::chains {

namespace {

constexpr int kRounds = 24;
constexpr double kSlowing = 1.0;  ///< How fast the steps grow shorter.

/// How often each edge is passed by the hops of a tree, every hop along a shortest way.
std::vector<std::int32_t> passes(const ChainProblem& problem, const HopBound& bound) {
    const pair_routes::Network network(problem.vertex_count, problem.edges);
    std::vector<std::int32_t> count(problem.edges.size(), 0);
    for (const auto& [from, to] : bound.hops) {
        const VertexId start = from < 0 ? problem.source : problem.stops[static_cast<std::size_t>(from)];
        const auto label = two_level::distances_from(network, start, hop_charge(problem));
        // Back along edges that are tight; a zero-cost round trip cannot arise because labels are settled in order.
        std::vector<char> seen(problem.vertex_count, 0);
        for (VertexId at = problem.stops[static_cast<std::size_t>(to)]; at != start && !seen[at];) {
            seen[at] = 1;
            for (const Step& step : network.steps.from(at)) {
                const Cost along = hop_charge(problem).on(problem.edges[step.edge]);
                if (seen[step.to] || label[step.to] + along != label[at]) continue;
                ++count[step.edge];
                at = step.to;
                break;
            }
        }
    }
    return count;
}

std::vector<char> opened_by(const SharedCostPlan& plan, std::size_t edge_count) {
    std::vector<char> opened(edge_count, 0);
    for (const auto& path : plan.paths) {
        for (const EdgeId e : path)
            opened[e] = 1;
    }
    return opened;
}

}  // namespace

SharedCostProblem joining_problem(const ChainProblem& problem, const CostSplit& split) {
    SharedCostProblem joined;
    joined.vertex_count = problem.vertex_count;
    joined.edges = problem.edges;
    for (std::size_t e = 0; e < joined.edges.size(); ++e)
        joined.edges[e].opening += split[e];
    for (const VertexId stop : problem.stops)
        joined.demands.push_back({stop, 0, 0});
    joined.roots = {{problem.source, 0}};
    return joined;
}

ChainProblem hopping_problem(const ChainProblem& problem, const CostSplit& split) {
    ChainProblem hopping = problem;
    for (std::size_t e = 0; e < hopping.edges.size(); ++e) {
        SharedCostEdge& edge = hopping.edges[e];
        edge.passage = hop_charge(problem).on(edge) - split[e];
        edge.length = 0;
    }
    hopping.weight = 0;
    hopping.multiplicity = 1;
    return hopping;
}

HopCosts shortest_hops(const ChainProblem& problem) {
    const pair_routes::Network network(problem.vertex_count, problem.edges);
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

CostSplit good_split(const ChainProblem& problem, const std::vector<StopGroup>& groups, Cost target,
                     const SolveLimits& limits) {
    const pair_routes::StopRule stop(limits.seconds, limits.progress);
    std::vector<double> part(problem.edges.size(), 0.0);
    CostSplit split(problem.edges.size(), 0);
    CostSplit best = split;
    Cost best_sum = -1;
    for (int round = 1; round <= kRounds && !stop.reached(); ++round) {
        SolveLimits quick = limits;
        quick.seconds = stop.seconds_left();
        const SharedCostSolution joined = sketch(joining_problem(problem, split), quick);
        if (!joined.plan) break;
        const ChainProblem hopping = hopping_problem(problem, split);
        const HopBound hops = least_hop_tree(shortest_hops(hopping), groups, target - joined.plan->value);
        if (joined.plan->value + hops.cost > best_sum) {
            best_sum = joined.plan->value + hops.cost;
            best = split;
        }
        const std::vector<char> opened = opened_by(*joined.plan, problem.edges.size());
        const std::vector<std::int32_t> count = passes(hopping, hops);
        for (std::size_t e = 0; e < part.size(); ++e) {
            part[e] = std::clamp(part[e] + (opened[e] - count[e]) / (1.0 + kSlowing * round), 0.0, 1.0);
            const Cost whole = hop_charge(problem).on(problem.edges[e]);
            split[e] = std::clamp<Cost>(static_cast<Cost>(part[e] * static_cast<double>(whole)), 0, whole);
        }
    }
    return best;
}

}  // namespace spadework::graph::chains
