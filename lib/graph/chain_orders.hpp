#pragma once

// Orders of stops on chains of limited length, when every hop's cost is known. Heuristics; no bound is claimed here.

#include <cstdint>
#include <random>
#include <vector>

#include "graph/chain_figures.hpp"

namespace spadework::graph::chains {

/// What hops cost, and what chains pay and save.
struct HopCosts {
    std::int32_t stops = 0;
    std::vector<Cost> from_source;  ///< By stop.
    std::vector<Cost> between;      ///< stops * stops, symmetric.
    Cost a_chain = 0;               ///< Paid for every chain, the saving at its end taken off; may be negative.
    std::int32_t longest_chain = 1;

    /// `from` is -1 for the source.
    [[nodiscard]] Cost hop(std::int32_t from, std::int32_t to) const {
        return from < 0 ? from_source[to] : between[static_cast<std::size_t>(from) * stops + to];
    }
};

Cost cost_of_orders(const HopCosts& costs, const Orders& orders);

/// Cuts a sequence of all stops into chains at the best places.
Orders best_cut(const HopCosts& costs, const std::vector<std::int32_t>& sequence);

/// Moves stops and stretches of up to three, swaps them, turns stretches round and exchanges the tails of chains, until
/// nothing of the kind lowers the cost.
void improve_orders(const HopCosts& costs, Orders& orders);

/// Shakes and improves so many times, keeping the best; goes on from what is a little dearer, and back to the best now
/// and then. Never dearer than what is given.
void settle_orders(const HopCosts& costs, Orders& orders, int shakes);

/// Takes a few stops near each other out and puts each back where it costs least. The cost may rise.
void shake_orders(const HopCosts& costs, Orders& orders, std::mt19937_64& random);

}  // namespace spadework::graph::chains
