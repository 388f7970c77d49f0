#pragma once

#include <optional>
#include <vector>

#include "routing/network.hpp"
#include "units/length.hpp"

namespace spadework {

/// Shortest way over the network from one place to every other, by length.
struct ShortestWays {
    std::vector<std::optional<Length>> length;  ///< For each place; empty where there is no way.
    std::vector<graph::EdgeId> last_edge;       ///< For each place the edge by which it is reached, or -1.
};

/// Dijkstra's algorithm (Boost.Graph). Of the ways of one segment, which are all as long, the one that costs least to
/// open and pass once counts, and the first of those.
ShortestWays shortest_ways(const Network& network, PlaceIndex from);

/// Edges of the shortest way to a place, from the start outwards; empty at the start itself or where there is no way.
std::vector<graph::EdgeId> way_to(const ShortestWays& ways, const Network& network, PlaceIndex to);

}  // namespace spadework
