#pragma once

// Random small routing problems and their optimum by trying every set of opened edges.

#include <cstdint>
#include <limits>
#include <optional>
#include <random>
#include <vector>

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph::testing {

/// What random problems look like.
struct ProblemShape {
    int vertices = 6;
    int edges = 9;
    int demands = 4;
    int roots = 1;
    std::int64_t most_opening = 20;
    std::int64_t most_weight = 3;
    std::int64_t most_passage = 0;
};

class Dice {
public:
    explicit Dice(std::uint64_t seed) : generator_(seed) {}
    std::int64_t upto(std::int64_t most) {
        return static_cast<std::int64_t>(generator_() % static_cast<std::uint64_t>(most + 1));
    }

private:
    std::mt19937_64 generator_;
};

/// Loops, parallel edges, zeros, demands at roots and unreachable demands all happen.
inline SharedCostProblem random_problem(const ProblemShape& shape, Dice& dice) {
    SharedCostProblem problem;
    problem.vertex_count = shape.vertices;
    const auto vertex = [&] { return static_cast<VertexId>(dice.upto(shape.vertices - 1)); };
    for (int e = 0; e < shape.edges; ++e) {
        problem.edges.push_back(
            {vertex(), vertex(), dice.upto(shape.most_opening), dice.upto(6), dice.upto(shape.most_passage)});
    }
    const int demands = static_cast<int>(dice.upto(shape.demands));
    for (int d = 0; d < demands; ++d)
        problem.demands.push_back({vertex(), dice.upto(shape.most_weight), dice.upto(2)});
    const int roots = 1 + static_cast<int>(dice.upto(shape.roots - 1));
    for (int r = 0; r < roots; ++r)
        problem.roots.push_back({vertex(), roots > 1 ? dice.upto(5) : 0});
    return problem;
}

/// One demand's cheapest path charge from the root over the opened edges, by relaxing every edge often enough.
inline std::optional<std::int64_t> cheapest_charge(const SharedCostProblem& problem, std::uint32_t opened,
                                                   VertexId root, const Demand& demand) {
    constexpr std::int64_t far = std::numeric_limits<std::int64_t>::max() / 4;
    std::vector<std::int64_t> cost(problem.vertex_count, far);
    cost[root] = 0;
    for (VertexId round = 0; round < problem.vertex_count; ++round) {
        for (std::size_t e = 0; e < problem.edges.size(); ++e) {
            if ((opened >> e & 1U) == 0) continue;
            const SharedCostEdge& edge = problem.edges[e];
            const std::int64_t along = demand.weight * edge.length + demand.multiplicity * edge.passage;
            cost[edge.head] = std::min(cost[edge.head], cost[edge.tail] + along);
            cost[edge.tail] = std::min(cost[edge.tail], cost[edge.head] + along);
        }
    }
    if (cost[demand.at] >= far) return std::nullopt;
    return cost[demand.at];
}

/// The least cost with one root over all sets of opened edges, or nothing when some demand cannot be reached.
inline std::optional<std::int64_t> optimum_by_trial(const SharedCostProblem& problem, const RootOption& root) {
    std::optional<std::int64_t> best;
    for (std::uint32_t opened = 0; opened < 1U << problem.edges.size(); ++opened) {
        std::int64_t cost = root.cost;
        for (std::size_t e = 0; e < problem.edges.size(); ++e) {
            if (opened >> e & 1U) cost += problem.edges[e].opening;
        }
        if (best && cost >= *best) continue;
        bool reached = true;
        for (const Demand& demand : problem.demands) {
            const auto charge = cheapest_charge(problem, opened, root.at, demand);
            reached = reached && charge.has_value();
            if (!reached) break;
            cost += *charge;
        }
        if (reached && (!best || cost < *best)) best = cost;
    }
    return best;
}

/// The least cost over all roots.
inline std::optional<std::int64_t> optimum_by_trial(const SharedCostProblem& problem) {
    std::optional<std::int64_t> best;
    for (const RootOption& root : problem.roots) {
        const auto cost = optimum_by_trial(problem, root);
        if (cost && (!best || *cost < *best)) best = cost;
    }
    return best;
}

}  // namespace spadework::graph::testing
