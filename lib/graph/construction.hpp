#pragma once

// A first tree: demands join one after the other by the cheapest way.

#include <vector>

#include "graph/route_tree.hpp"

namespace spadework::graph {

/// Demands in the given order each take the cheapest path to the tree so far: the opening costs of new edges plus what
/// the demand pays all the way to the root. `to_root` are the shortest reaches from the root, which steer the search.
RouteTree joined_one_by_one(const SearchNetwork& network, VertexId root, const std::vector<double>& opening,
                            const std::vector<PathLength>& to_root, const std::vector<std::int32_t>& demand_order);

using DemandOrder = std::vector<std::int32_t> (*)(const SearchNetwork&, const std::vector<PathLength>& to_root);

/// Demand numbers, those that pay most on their shortest path first.
std::vector<std::int32_t> heaviest_first(const SearchNetwork& network, const std::vector<PathLength>& to_root);

/// Demand numbers, nearest to the root first.
std::vector<std::int32_t> nearest_first(const SearchNetwork& network, const std::vector<PathLength>& to_root);

}  // namespace spadework::graph
