#pragma once

// What no plan of a ChainProblem can undercut.

#include "graph/chain_problem.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph::chains {

/// A lower bound proved in exact arithmetic. The problem is well formed and `plan` one of its plans, the better the
/// nearer the bound comes.
Cost lower_bound(const ChainProblem& problem, const ChainPlan& plan, const SolveLimits& limits);

}  // namespace spadework::graph::chains
