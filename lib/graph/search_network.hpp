#pragma once

// The problem in the form the search works on: floating-point figures, adjacency, distances to a root.

#include <vector>

#include "graph/adjacency.hpp"
#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// What a path pays on an edge: weight * length + multiplicity * passage.
struct PathRate {
    double weight = 0.0;
    double multiplicity = 0.0;

    PathRate& operator+=(const PathRate& other) {
        weight += other.weight;
        multiplicity += other.multiplicity;
        return *this;
    }
    PathRate& operator-=(const PathRate& other) {
        weight -= other.weight;
        multiplicity -= other.multiplicity;
        return *this;
    }
};

/// How long a path is in both figures.
struct PathLength {
    double length = 0.0;
    double passage = 0.0;

    PathLength operator+(const PathLength& other) const { return {length + other.length, passage + other.passage}; }
};

inline double charge(const PathRate& rate, const PathLength& path) {
    return rate.weight * path.length + rate.multiplicity * path.passage;
}

/// Floating-point copy of a problem. Where all demands measure paths alike, `reach` holds that one measure as length
/// (passage 0) and the rates are scaled to it.
struct SearchNetwork {
    SearchNetwork(const SharedCostProblem& problem, bool one_measure);

    [[nodiscard]] std::size_t edge_count() const { return tail.size(); }
    [[nodiscard]] VertexId across(EdgeId edge, VertexId from) const {
        return tail[edge] == from ? head[edge] : tail[edge];
    }

    VertexId vertex_count = 0;
    bool one_measure = true;
    Adjacency steps;
    std::vector<VertexId> tail;
    std::vector<VertexId> head;
    std::vector<double> opening;
    std::vector<PathLength> reach;
    std::vector<VertexId> demand_at;
    std::vector<PathRate> rate;
    std::vector<VertexId> root_at;
    std::vector<double> root_cost;
};

/// Shortest length and shortest passage from any of the given vertices to every vertex, each by itself.
std::vector<PathLength> shortest_reach(const SearchNetwork& network, const std::vector<VertexId>& from);

}  // namespace spadework::graph
