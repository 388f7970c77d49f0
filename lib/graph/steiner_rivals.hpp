#pragma once

// Which key paths of a tree have a cheaper rival: found for all of them at once.

#include <cstdint>
#include <vector>

#include "graph/steiner_network.hpp"

namespace spadework::graph::steiner {

/// A key path leads between two key vertices (terminals, or forks of the tree) and passes none.
struct KeyPath {
    VertexId from = 0;        ///< Its key vertex farther from the first terminal.
    std::int32_t start = -1;  ///< Half edge of its first edge there.
};

/// Key paths that cost more than the cheapest way that joins both sides when they are cut out, for the tree of the
/// marked half edges (both of an edge are marked). The tree must hold all terminals and have no other leaves.
/// Nearest tree vertices are found once, those of a cut path's own neighbourhood again for each path; the cheapest ways
/// between the rest are laid over the paths they bridge, cheapest first, as in sensitivity analysis of spanning trees.
/// After Uchoa and Werneck, "Fast local search for the Steiner problem in graphs", Journal of Experimental Algorithmics
/// 17 (2012).
std::vector<KeyPath> beaten_key_paths(const Network& network, const std::vector<char>& used);

}  // namespace spadework::graph::steiner
