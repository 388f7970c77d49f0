#pragma once

// Good trees quickly: construction and local search.

#include <functional>
#include <optional>
#include <vector>

#include "graph/steiner_network.hpp"

namespace spadework::graph::steiner {

/// Edges that join all terminals, one half edge for each.
struct Tree {
    std::vector<std::int32_t> halves;
    Cost cost = 0;
};

/// Joins the terminals to the start one by one, each time the one nearest to what is joined already, by the given
/// lengths of half edges as arcs (kFar: barred). Takahashi and Matsuyama, "An approximate solution for the Steiner
/// problem in graphs" (1980). The tree is tidied. Nothing where some terminal cannot be reached.
std::optional<Tree> joined_by_nearest(const Network& network, VertexId start, const std::vector<Cost>& lengths);

/// A minimum spanning tree of the vertices that the given edges join to the first terminal (all terminals must be among
/// them) by true costs, over all edges of the network between them, without branches that end in no terminal.
Tree tidied(const Network& network, const std::vector<std::int32_t>& halves);

/// Improves the tree until nothing helps or it is told to stop: a key path (between terminals or forks) is exchanged
/// for the cheapest that joins both sides again, and a fork that is no terminal is taken out with all its key paths.
/// Pajor, Uchoa and Werneck, "A robust and scalable algorithm for the Steiner problem in graphs" (2014).
void exchange_paths(const Network& network, Tree& tree, const std::function<bool()>& stop);

}  // namespace spadework::graph::steiner
