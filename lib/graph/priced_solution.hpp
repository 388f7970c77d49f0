#pragma once

// What plans from above and prices from below reach without splitting the problem.

#include <vector>

#include "graph/shared_cost_solver.hpp"

namespace spadework::graph {

struct PricedSolution {
    SharedCostSolution solution;
    std::vector<double> edge_use;  ///< By edge, how much of it the averaged flows use, 0 to 1. Empty without a plan.
};

/// The problem is well formed and some path costs something.
PricedSolution solve_by_prices(const SharedCostProblem& problem, const SolveLimits& limits);

}  // namespace spadework::graph
