#pragma once

// Who pays how much of each opening cost.

#include <cstddef>
#include <cstdint>
#include <vector>

#include "graph/arc.hpp"

namespace spadework::graph {

/// A purse is the opening cost of an arc or, where directions share prices, of an edge.
inline std::size_t purse_of(const SearchNetwork& network, ArcId arc) {
    return network.one_measure ? arc : edge_of(arc);
}
inline std::size_t purse_count(const SearchNetwork& network) {
    return network.one_measure ? 2 * network.edge_count() : network.edge_count();
}
inline EdgeId edge_of_purse(const SearchNetwork& network, std::size_t purse) {
    return static_cast<EdgeId>(network.one_measure ? purse / 2 : purse);
}

/// Prices above 0, purse by purse: those of purse p are at first[p] .. first[p+1]-1, demands ascending.
struct PursePrices {
    std::vector<std::size_t> first;
    std::vector<std::uint32_t> demand;
    std::vector<double> price;

    [[nodiscard]] bool empty() const { return first.empty(); }
};

}  // namespace spadework::graph
