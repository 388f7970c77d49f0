#include "graph/steiner_network.hpp"

namespace spadework::graph::steiner {

Network::Network(const Graph& graph) {
    std::vector<VertexId> number(graph.vertex_count(), -1);
    for (VertexId v = 0; v < graph.vertex_count(); ++v) {
        if (graph.degree(v) == 0 && !graph.is_terminal(v)) continue;
        number[v] = vertex_count();
        if (graph.is_terminal(v)) terminals_.push_back(number[v]);
        vertex_in_graph_.push_back(v);
        terminal_.push_back(graph.is_terminal(v) ? 1 : 0);
    }
    std::vector<std::int32_t> other_half(graph.edge_count(), -1);
    first_.reserve(vertex_in_graph_.size() + 1);
    halves_.reserve(2 * graph.live_edges());
    for (const VertexId v : vertex_in_graph_) {
        first_.push_back(half_count());
        for (const EdgeId e : graph.incident(v)) {
            const std::int32_t h = half_count();
            halves_.push_back({number[graph.across(e, v)], other_half[e], graph.edge(e).cost});
            edge_in_graph_.push_back(e);
            if (other_half[e] >= 0) halves_[other_half[e]].twin = h;
            other_half[e] = h;
        }
    }
    first_.push_back(half_count());
}

}  // namespace spadework::graph::steiner
