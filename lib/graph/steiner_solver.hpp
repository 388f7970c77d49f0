#pragma once

// Best tree and proven bound where paths cost nothing: the Steiner tree problem.

#include "graph/shared_cost_solver.hpp"

namespace spadework::graph::steiner {

/// Whether the problem is one of these: well formed, one root option that reaches every demand, no demand that pays
/// along its path, and costs small enough for sums of many of them.
bool is_steiner_problem(const SharedCostProblem& problem);

/// Solves such a problem.
SharedCostSolution solve_steiner(const SharedCostProblem& problem, const SolveLimits& limits);

}  // namespace spadework::graph::steiner
