#pragma once

// A tree of open edges that joins given pairs of vertices cheaply, when every pair pays for its own way along the tree.
//
// Both routing problems with more than one kind of path (fan-out sites, chains of stops) come down to this once it is
// settled which vertices are joined to which: the cost is the opening costs of the tree's edges plus, for every pair,
// weight * length + multiplicity * passage along the tree. All heuristics; no bound is claimed here.

#include <chrono>
#include <optional>
#include <span>
#include <vector>

#include "graph/adjacency.hpp"
#include "graph/progress.hpp"
#include "graph/saturating.hpp"
#include "graph/shared_cost_problem.hpp"

namespace spadework::graph::pair_routes {

/// What a path pays for every edge it takes: weight * length + multiplicity * passage.
struct Charge {
    Cost weight = 0;
    Cost multiplicity = 0;

    [[nodiscard]] Cost on(Length length, Cost passage) const { return weight * length + multiplicity * passage; }
    [[nodiscard]] Cost on(const SharedCostEdge& edge) const { return on(edge.length, edge.passage); }
    Charge& operator+=(Charge other) {
        weight += other.weight;
        multiplicity += other.multiplicity;
        return *this;
    }
    Charge& operator-=(Charge other) {
        weight -= other.weight;
        multiplicity -= other.multiplicity;
        return *this;
    }
};

/// Two vertices to be joined.
struct Pair {
    VertexId from = 0;
    VertexId to = 0;
    Charge charge;
};

/// When to stop early.
class StopRule {
public:
    StopRule(double seconds, const Progress* progress);

    /// True from the first time that the time is up or the progress asks to stop.
    [[nodiscard]] bool reached() const;

    /// 0 once the time is up.
    [[nodiscard]] double seconds_left() const;

private:
    std::chrono::steady_clock::time_point end_;
    const Progress* progress_;
    mutable bool reached_ = false;
};

struct Network {
    VertexId vertex_count = 0;
    std::span<const SharedCostEdge> edges;
    Adjacency steps;

    Network(VertexId vertices, std::span<const SharedCostEdge> all_edges)
        : vertex_count(vertices), edges(all_edges), steps(vertices, all_edges) {}
};

/// Open edges that join all terminals, found by adding the nearest terminal again and again, where a new edge costs its
/// opening and `charge` on it (Takahashi and Matsuyama 1980). Nothing when they cannot be joined.
std::optional<std::vector<EdgeId>> joining_tree(const Network& network, std::span<const VertexId> terminals,
                                                Charge charge);

/// What the pairs pay on the tree, openings included. The tree must join every pair.
Cost cost_on_tree(const Network& network, std::span<const Pair> pairs, std::span<const EdgeId> tree);

/// Exchanges paths of the tree between its branching points and ends while that lowers `cost_on_tree`; edges that no
/// pair needs are dropped first.
std::vector<EdgeId> improved_tree(const Network& network, std::span<const Pair> pairs, std::vector<EdgeId> tree,
                                  const StopRule& stop);

}  // namespace spadework::graph::pair_routes
