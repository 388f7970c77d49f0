#pragma once

// Better trees by taking a few neighbouring demands out and putting them back in another way.

#include <cstdint>
#include <vector>

#include "graph/plan_search.hpp"

namespace spadework::graph {

/// For each demand the demands nearest to it, itself first.
using Neighbours = std::vector<std::vector<std::int32_t>>;
Neighbours nearest_demands(const SearchNetwork& network, std::size_t most);

/// What a region search goes by.
struct RegionGuide {
    const std::vector<PathLength>& to_root;  ///< Shortest reaches from the tree's root.
    const std::vector<double>& edge_use;     ///< How much a relaxation uses each edge, 0 to 1: a hint.
    const Neighbours& neighbours;
};

/// Tries so many regions: takes the demands of each out, puts them back one by one in random order by the cheapest way
/// at disturbed opening costs, exchanges key paths there, and keeps what is cheaper. Large neighbourhood search: Shaw,
/// "Using constraint programming and local search methods to solve vehicle routing problems" (1998). The same seed
/// gives the same tree.
TreeFound with_regions_rebuilt(const SearchNetwork& network, const RegionGuide& guide, const TreeFound& from,
                               std::size_t tries, std::uint64_t seed);

}  // namespace spadework::graph
