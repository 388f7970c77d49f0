#pragma once

// A route tree that is changed in place, knows what every edge carries at any moment, and can take changes back.

#include <limits>
#include <vector>

#include "graph/route_tree.hpp"

namespace spadework::graph {

class LiveTree {
public:
    struct Node {
        EdgeId up = -1;  ///< Edge to the parent; -1 for the root and for vertices not in the tree.
        VertexId first_child = -1;
        VertexId next_sibling = -1;
        VertexId previous_sibling = -1;
        std::int32_t children = 0;
        std::int32_t demands = 0;  ///< Demands at the vertex that are part of the tree now.
        PathRate carried;          ///< Sum of rates of demands at or below.
        PathLength from_root;
    };

    LiveTree(const SearchNetwork& network, const RouteTree& tree);

    [[nodiscard]] VertexId root() const { return root_; }
    [[nodiscard]] bool holds(VertexId v) const { return v == root_ || nodes_[v].up >= 0; }
    [[nodiscard]] const Node& at(VertexId v) const { return nodes_[v]; }
    [[nodiscard]] VertexId parent(VertexId v) const { return network_.across(nodes_[v].up, v); }
    /// Whether a key path ends here from below: routes end or fork.
    [[nodiscard]] bool is_key(VertexId v) const {
        return v != root_ && nodes_[v].up >= 0 && (nodes_[v].demands > 0 || nodes_[v].children >= 2);
    }
    /// Whether a key path passes through: neither the root, nor a demand, nor a fork.
    [[nodiscard]] bool is_passing(VertexId v) const {
        return v != root_ && nodes_[v].demands == 0 && nodes_[v].children == 1;
    }

    /// Lists the vertices at and below `top`, parents before children; stops and says false past `most` of them.
    bool list_below(VertexId top, std::vector<VertexId>& below,
                    std::size_t most = std::numeric_limits<std::size_t>::max()) const;

    /// Hangs what is at and below `top` elsewhere: by its vertex `way.back()`, along `way` and the edges between,
    /// from the tree's vertex `way.front()`; `edges[i]` joins way[i] and way[i+1]. The passing vertices above `top`
    /// leave the tree. The inner vertices of `way` are not in the tree, or are among those that leave.
    void rehang(VertexId top, const std::vector<VertexId>& way, const std::vector<EdgeId>& edges);

    /// Takes a demand out, and the branch that served it alone; returns the opening costs saved. Charges are not
    /// counted.
    double take_out(std::int32_t demand);

    /// Puts a demand in that was taken out, along a way as in `rehang` that ends at the demand's vertex (or at its
    /// vertex alone when the tree holds it).
    void put_in(std::int32_t demand, const std::vector<VertexId>& way, const std::vector<EdgeId>& edges);

    /// From here on changes can be taken back.
    void remember();
    /// Takes back all changes since `remember`.
    void take_back();

    [[nodiscard]] RouteTree plain() const;

private:
    Node& touch(VertexId v);
    void link(VertexId v, EdgeId up);
    void unlink(VertexId v);
    void add_above(VertexId v, PathRate rate, std::int32_t sign);
    double prune_from(VertexId v);
    void turn(VertexId top, VertexId hanging);
    void measure_below(VertexId top);

    const SearchNetwork& network_;
    VertexId root_;
    std::vector<Node> nodes_;
    std::vector<std::uint32_t> saved_in_;  ///< For each vertex the round of changes in which it was saved last.
    std::uint32_t round_ = 0;
    std::vector<std::pair<VertexId, Node>> saved_;
    std::vector<VertexId> scratch_;
};

}  // namespace spadework::graph
