#pragma once

// Sums and products of costs that stop at the largest Cost instead of overflowing.

#include <limits>

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

__extension__ using WideCost = __int128;

constexpr Cost kLargestCost = std::numeric_limits<Cost>::max();

/// The value, or the largest Cost where it does not fit.
constexpr Cost saturated(WideCost value) {
    return value > kLargestCost ? kLargestCost : static_cast<Cost>(value);
}

constexpr Cost add(Cost a, Cost b) {
    return saturated(static_cast<WideCost>(a) + b);
}
constexpr Cost times(Cost a, Cost b) {
    return saturated(static_cast<WideCost>(a) * b);
}

/// What one path of the demand pays on the edge, opening left out.
constexpr Cost path_charge(const Demand& demand, const SharedCostEdge& edge) {
    return add(times(demand.weight, edge.length), times(demand.multiplicity, edge.passage));
}

}  // namespace spadework::graph
