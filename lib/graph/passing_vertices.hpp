#pragma once

// A network without the vertices that paths only pass through, and without dead ends that lead nowhere.

#include <span>
#include <vector>

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// Edges between vertices that matter; each stands for a chain of the original's. Parallel edges stay.
struct JoinedNetwork {
    std::vector<VertexId> vertices;  ///< For each vertex the one it was, ascending.
    std::vector<VertexId> number;    ///< For each vertex of the original its number here, or -1.
    std::vector<SharedCostEdge> edges;
    std::vector<std::vector<EdgeId>> chains;  ///< For each edge those of the original, from its tail to its head.
    std::vector<std::vector<char>> against;   ///< For each of those whether the chain runs from its head to its tail.

    /// The path in edges of the original; `from` is the vertex here that it starts at.
    [[nodiscard]] std::vector<EdgeId> expanded(std::span<const EdgeId> path, VertexId from) const;
};

/// Keeps every vertex marked in `kept` and every fork between them. All figures must be 0 or more, and the sums of each
/// over all edges less than 2^63.
JoinedNetwork without_passing_vertices(VertexId vertex_count, std::span<const SharedCostEdge> edges,
                                       const std::vector<char>& kept);

}  // namespace spadework::graph
