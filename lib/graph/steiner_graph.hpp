#pragma once

// A Steiner tree problem while it is made smaller, and the way back to the problem it came from: connect all terminals
// at least cost. Whatever is done to it, a tree of the smaller graph leads back to one of the input that costs no more
// (fixed cost included), and callers see to it that some cheapest tree of the input survives.

#include <cstdint>
#include <utility>
#include <vector>

#include "graph/saturating.hpp"
#include "graph/shared_cost_problem.hpp"

namespace spadework::graph::steiner {

struct InputEdge {
    VertexId tail = 0;
    VertexId head = 0;
    Cost cost = 0;
};

/// Largest sum of the costs of all edges: no path or tree is dearer, so sums of a few of them stay within 64 bits.
constexpr Cost kLargestSum = kLargestCost / 32;

class Graph {
public:
    struct Edge {
        VertexId tail = 0;
        VertexId head = 0;
        Cost cost = 0;
        std::int32_t piece = 0;  ///< What of the input it stands for.
        std::int32_t slot_at_tail = -1;
        std::int32_t slot_at_head = -1;  ///< -1 both: erased.
    };

    /// The costs must add up to at most kLargestSum. Loops and beaten parallels are left out.
    Graph(VertexId vertex_count, const std::vector<InputEdge>& edges, const std::vector<VertexId>& terminals);

    [[nodiscard]] VertexId vertex_count() const { return static_cast<VertexId>(incident_.size()); }
    [[nodiscard]] EdgeId edge_count() const { return static_cast<EdgeId>(edges_.size()); }  ///< Erased ones included.
    [[nodiscard]] std::size_t live_edges() const { return live_edges_; }
    [[nodiscard]] const Edge& edge(EdgeId e) const { return edges_[e]; }
    [[nodiscard]] bool alive(EdgeId e) const { return edges_[e].slot_at_tail >= 0; }
    [[nodiscard]] const std::vector<EdgeId>& incident(VertexId v) const { return incident_[v]; }
    [[nodiscard]] std::size_t degree(VertexId v) const { return incident_[v].size(); }
    [[nodiscard]] VertexId across(EdgeId e, VertexId v) const {
        return edges_[e].tail == v ? edges_[e].head : edges_[e].tail;
    }
    [[nodiscard]] bool is_terminal(VertexId v) const { return terminal_[v] != 0; }
    [[nodiscard]] std::size_t terminal_count() const { return terminal_count_; }
    [[nodiscard]] Cost fixed_cost() const { return fixed_cost_; }
    /// The edge between two vertices, or -1.
    [[nodiscard]] EdgeId edge_between(VertexId u, VertexId v) const;

    void erase(EdgeId e);
    void erase_vertex(VertexId v);  ///< With all its edges.
    void make_terminal(VertexId v);

    /// Takes the edge into the tree for good and merges its ends; returns the vertex that stays.
    VertexId contract(EdgeId e);

    /// Whether eliminating a vertex keeps the sum of costs in bounds.
    [[nodiscard]] bool can_eliminate(VertexId v) const;

    /// Replaces a vertex that no cheapest tree needs with more than two edges by edges that bypass it, one for each
    /// pair of its edges that is given.
    void eliminate(VertexId v, const std::vector<std::pair<EdgeId, EdgeId>>& pairs);

    /// Vertices whose edges or kind changed since the last call, each once.
    std::vector<VertexId> take_touched();

    /// Numbers of the input edges that the given edges and all contracted ones stand for, ascending, each once. Where
    /// the given edges join all terminals, these do too in the input.
    [[nodiscard]] std::vector<EdgeId> input_edges(const std::vector<EdgeId>& edges) const;

    /// The input edge that an edge is, where nothing was joined or merged yet.
    [[nodiscard]] EdgeId input_edge(EdgeId e) const { return edges_[e].piece; }
    /// Whether all input edges that the edge stands for are marked.
    [[nodiscard]] bool is_made_of(EdgeId e, const std::vector<char>& marked) const;

private:
    struct Piece {
        std::int32_t first = -1;
        std::int32_t second = -1;
    };

    void add_edge(VertexId u, VertexId v, Cost cost, std::int32_t piece);
    void hang(VertexId v, EdgeId e, std::int32_t Edge::*slot);
    void unhang(VertexId v, std::int32_t slot);
    void touch(VertexId v);

    std::vector<Edge> edges_;
    std::vector<std::vector<EdgeId>> incident_;
    std::vector<char> terminal_;
    std::size_t terminal_count_ = 0;
    std::size_t live_edges_ = 0;
    Cost live_cost_ = 0;
    Cost fixed_cost_ = 0;
    std::int32_t input_count_ = 0;
    std::vector<Piece> joined_;        ///< Piece input_count_ + i is made of two others.
    std::vector<std::int32_t> fixed_;  ///< Pieces of contracted edges.
    std::vector<VertexId> touched_;
    std::vector<char> is_touched_;
};

}  // namespace spadework::graph::steiner
