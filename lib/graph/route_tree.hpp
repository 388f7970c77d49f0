#pragma once

// A tree of routes from a root: the shape of a plan while it is searched.

#include <vector>

#include "graph/search_network.hpp"

namespace spadework::graph {

/// Parent edges of the vertices in the tree. All demands are in it; leaves are demands.
class RouteTree {
public:
    RouteTree(const SearchNetwork& network, VertexId root);

    [[nodiscard]] VertexId root() const { return root_; }
    [[nodiscard]] bool holds(VertexId v) const { return v == root_ || parent_edge_[v] >= 0; }
    [[nodiscard]] EdgeId parent_edge(VertexId v) const { return parent_edge_[v]; }
    [[nodiscard]] VertexId parent(const SearchNetwork& network, VertexId v) const {
        return network.across(parent_edge_[v], v);
    }
    void hang(VertexId v, EdgeId parent_edge) { parent_edge_[v] = parent_edge; }
    void drop(VertexId v) { parent_edge_[v] = -1; }

    /// Makes `root` the root: turns the parent edges on the way to it. It must be in the tree.
    void turn_to(const SearchNetwork& network, VertexId root);

    /// Removes branches without demands.
    void prune(const SearchNetwork& network);

    /// Cost of the routes with the given opening costs, the root's cost left out.
    [[nodiscard]] double cost(const SearchNetwork& network, const std::vector<double>& opening) const;

private:
    VertexId root_;
    std::vector<EdgeId> parent_edge_;
};

/// What the tree carries and how it hangs together, taken at one moment.
struct TreeView {
    TreeView(const SearchNetwork& network, const RouteTree& tree);

    std::vector<VertexId> order;              ///< Parents before children; only vertices in the tree.
    std::vector<PathLength> from_root;        ///< For each vertex.
    std::vector<PathRate> carried;            ///< For each vertex: sum of rates of demands at or below it.
    std::vector<std::int32_t> child_count;    ///< For each vertex.
    std::vector<std::int32_t> demands_below;  ///< For each vertex: demands at or below it.
    std::vector<char> has_demand;             ///< For each vertex.
    std::vector<std::size_t> place;           ///< For each vertex in the tree: its index in a depth-first order.
    std::vector<VertexId> depth_first;        ///< Vertices below v follow v directly.
    std::vector<std::size_t> size_below;      ///< For each vertex: vertices at or below it.
};

/// The tree as a plan for the problem the network was made from. The root is the first option at the tree's root.
SharedCostPlan plan_of(const SearchNetwork& network, const RouteTree& tree);

}  // namespace spadework::graph
