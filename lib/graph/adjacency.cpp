#include "graph/adjacency.hpp"

namespace spadework::graph {

Adjacency::Adjacency(VertexId vertex_count, std::span<const SharedCostEdge> edges)
    : first_(static_cast<std::size_t>(vertex_count) + 1, 0) {
    for (const SharedCostEdge& edge : edges) {
        if (edge.tail == edge.head) continue;
        ++first_[edge.tail + 1];
        ++first_[edge.head + 1];
    }
    for (std::size_t v = 1; v < first_.size(); ++v)
        first_[v] += first_[v - 1];
    steps_.resize(first_.back());
    std::vector<std::size_t> next(first_.begin(), first_.end() - 1);
    for (std::size_t e = 0; e < edges.size(); ++e) {
        const SharedCostEdge& edge = edges[e];
        if (edge.tail == edge.head) continue;
        steps_[next[edge.tail]++] = {edge.head, static_cast<EdgeId>(e)};
        steps_[next[edge.head]++] = {edge.tail, static_cast<EdgeId>(e)};
    }
}

}  // namespace spadework::graph
