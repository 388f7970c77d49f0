#pragma once

// Which edges meet at each vertex.

#include <cstddef>
#include <span>
#include <vector>

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// One step from a vertex along an edge.
struct Step {
    VertexId to = 0;
    EdgeId edge = 0;
};

/// Steps from every vertex, in edge order. Loops are left out.
class Adjacency {
public:
    Adjacency() = default;
    Adjacency(VertexId vertex_count, std::span<const SharedCostEdge> edges);

    [[nodiscard]] std::span<const Step> from(VertexId vertex) const {
        const auto v = static_cast<std::size_t>(vertex);
        return {steps_.data() + first_[v], first_[v + 1] - first_[v]};
    }

private:
    std::vector<std::size_t> first_;
    std::vector<Step> steps_;
};

}  // namespace spadework::graph
