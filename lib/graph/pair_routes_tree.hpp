#pragma once

// A tree of edges laid out from a root, parents before children, every subtree in one stretch.

#include <cstddef>
#include <span>
#include <vector>

#include "graph/pair_routes.hpp"

namespace spadework::graph::pair_routes {

/// Positions run from 0 (the root) in depth-first order. What is below position p lies in [p, p + size[p]).
struct RootedTree {
    std::vector<VertexId> vertex;      ///< At each position.
    std::vector<std::int32_t> parent;  ///< Position of the parent; -1 for the root.
    std::vector<EdgeId> edge;          ///< To the parent; -1 for the root.
    std::vector<std::int32_t> size;    ///< Vertices in the subtree.
    std::vector<std::int32_t> depth;   ///< Edges to the root.
    std::vector<std::int32_t> place;   ///< Position of each vertex of the network; -1 off the tree.

    [[nodiscard]] std::int32_t count() const { return static_cast<std::int32_t>(vertex.size()); }
};

/// The component of the root among the given edges, which must have no cycles there (an edge that would close one is
/// left out).
RootedTree rooted(const Network& network, std::span<const EdgeId> edges, VertexId root);

/// The same without branches that lead to no kept vertex. `keep` has one entry for each vertex of the network.
std::vector<EdgeId> pruned(const Network& network, std::span<const EdgeId> edges, VertexId root,
                           const std::vector<char>& keep);

/// The edges from one vertex to the other along the tree.
std::vector<EdgeId> path_between(const RootedTree& tree, VertexId from, VertexId to);

}  // namespace spadework::graph::pair_routes
