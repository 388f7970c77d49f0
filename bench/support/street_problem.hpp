#pragma once

// An invented street map as a routing problem with one root, without the rest of a site.

#include "graph/shared_cost_problem.hpp"
#include "support/dice.hpp"
#include "support/street_map.hpp"

namespace spadework::bench {

/// Trenches from the hub to all buildings. Costs are thousandths of money, lengths decimetres; each building's cable
/// costs between 0.70 and 8.00 a metre.
graph::SharedCostProblem street_problem(const StreetMap& map, Dice& dice);

}  // namespace spadework::bench
