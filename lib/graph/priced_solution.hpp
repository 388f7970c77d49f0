#pragma once

// What plans from above and prices from below reach without splitting the problem.

#include <vector>

#include "graph/known_prices.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph {

struct PricedSolution {
    SharedCostSolution solution;
    std::vector<double> edge_use;  ///< By edge, how much of it the averaged flows use, 0 to 1. Empty without a plan.
};

enum class PlansBuilt {
    along_flows,
    along_choices_too,  ///< Where prices leave a gap, of one root: see SolveRun::try_choices.
};

/// The problem is well formed and some path costs something. With one root `known`, prices of the problem, may be where
/// to start from.
PricedSolution solve_by_prices(const SharedCostProblem& problem, const SolveLimits& limits, PlansBuilt plans,
                               const KnownPrices* known = nullptr);

}  // namespace spadework::graph
