#pragma once

// Local search on route trees.

#include <vector>

#include "graph/route_tree.hpp"

namespace spadework::graph {

/// Improves the tree in place until no key path can be exchanged for a cheaper one. A key path leads from a vertex
/// where routes end or fork up to the next such vertex; what hangs below it may be hung from any other vertex of the
/// tree, by any of its own vertices, and carries its sum of rates along. Idea: Pajor, Uchoa, Werneck, "A robust and
/// scalable algorithm for the Steiner problem in graphs" (2014), here with a charge for the distance from the root.
void exchange_key_paths(const SearchNetwork& network, const std::vector<PathLength>& to_root, RouteTree& tree);

}  // namespace spadework::graph
