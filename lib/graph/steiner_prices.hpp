#pragma once

// A bound from prices for every terminal, as the general solver finds them, for graphs that have become small: slower
// than cuts, and closer.

#include <vector>

#include "graph/steiner_network.hpp"
#include "graph/steiner_stop.hpp"

namespace spadework::graph::steiner {

/// Prices are in parts of a cost unit.
struct Pricing {
    VertexId root = 0;
    Cost bound = 0;  ///< No tree costs less.
    Cost sum = 0;    ///< The bound before it was raised to a whole number of units, in parts.
    Cost parts = 1;
    std::vector<Cost> rest;          ///< For each half edge, as an arc, what the prices leave of its cost, in parts.
    std::vector<std::int32_t> tree;  ///< Half edges of the best tree found on the way.

    /// How much more than the prices' sum a tree cheaper than the limit may cost, in parts.
    [[nodiscard]] Cost room(Cost limit) const { return limit * parts - sum; }
};

/// Whether the graph is small enough.
bool worth_pricing(const Network& network);

Pricing priced(const Network& network, const StopSign& stop, int threads);

}  // namespace spadework::graph::steiner
