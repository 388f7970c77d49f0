#pragma once

// A Steiner tree problem laid out for fast searching; it does not change.

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "graph/steiner_graph.hpp"

namespace spadework::graph::steiner {

constexpr Cost kFar = std::numeric_limits<Cost>::max() / 8;  ///< Farther than anything; a few of them can be added.

/// An edge as seen from one of its ends. As an arc it leads from `to` into that end.
struct Half {
    VertexId to = 0;
    std::int32_t twin = 0;  ///< Index of the same edge seen from the other end.
    Cost cost = 0;
};

/// Vertices are numbered anew, those without edges left out unless they are terminals.
class Network {
public:
    explicit Network(const Graph& graph);

    [[nodiscard]] VertexId vertex_count() const { return static_cast<VertexId>(vertex_in_graph_.size()); }
    [[nodiscard]] std::int32_t half_count() const { return static_cast<std::int32_t>(halves_.size()); }
    [[nodiscard]] std::int32_t first(VertexId v) const { return first_[v]; }
    [[nodiscard]] std::int32_t end(VertexId v) const { return first_[v + 1]; }
    [[nodiscard]] std::int32_t degree(VertexId v) const { return first_[v + 1] - first_[v]; }
    [[nodiscard]] const Half& half(std::int32_t h) const { return halves_[h]; }
    [[nodiscard]] bool is_terminal(VertexId v) const { return terminal_[v] != 0; }
    [[nodiscard]] const std::vector<VertexId>& terminals() const { return terminals_; }
    [[nodiscard]] VertexId vertex_in_graph(VertexId v) const { return vertex_in_graph_[v]; }
    [[nodiscard]] EdgeId edge_in_graph(std::int32_t h) const { return edge_in_graph_[h]; }
    /// The end of a half edge that it is listed at.
    [[nodiscard]] VertexId at(std::int32_t h) const { return halves_[halves_[h].twin].to; }

private:
    std::vector<std::int32_t> first_;
    std::vector<Half> halves_;
    std::vector<char> terminal_;
    std::vector<VertexId> terminals_;
    std::vector<VertexId> vertex_in_graph_;
    std::vector<EdgeId> edge_in_graph_;
};

}  // namespace spadework::graph::steiner
