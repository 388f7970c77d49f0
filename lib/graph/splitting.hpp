#pragma once

// Closes the gap that prices leave: plans that use an edge, and plans that do not, are bounded apart.

#include <vector>

#include "graph/priced_solution.hpp"
#include "graph/solve_clock.hpp"

namespace spadework::graph {

/// What is left of a problem for plans that keep to the choices: edges that all of them use cost nothing to open, edges
/// that none uses are loops. What the former cost to open is beside that.
SharedCostProblem rest_of(const SharedCostProblem& problem, const std::vector<EdgeChoice>& choices);

/// The solution with its bound raised by splits, and its plan by what turned up on the way, until they meet, the limits
/// are reached or no edge is left to split by. A problem with several roots stays as it is. Always the part with the
/// lowest bound is split, by an edge of which the averaged flows use about half; its prices are where those of the
/// halves start from. `clock` began with the whole solve.
SharedCostSolution closed_by_splitting(const SharedCostProblem& problem, const SolveLimits& limits,
                                       const SolveClock& clock, PricedSolution priced);

}  // namespace spadework::graph
