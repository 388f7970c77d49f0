#pragma once

// Floating-point prices as whole numbers that keep the rules exactly.

#include "graph/purse_prices.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph {

/// How many parts a cost unit is cut into, so that figures up to `largest` stay well within 64 bits. A power of two.
std::int64_t parts_for(double largest);

/// Prices in parts, rounded down. Where rounding left a purse above its opening cost the excess is taken off; where it
/// left some over, the highest price gets it. Prices that both directions of an edge share come as equal pairs. One
/// list for each of the network's demands.
EdgePriceSet rounded(const SearchNetwork& network, const SharedCostProblem& problem, const PursePrices& prices,
                     std::int64_t parts);

}  // namespace spadework::graph
