#pragma once

// What no plan of a ChainProblem can undercut.

#include "graph/chain_problem.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph::chains {

/// A lower bound proved in exact arithmetic. The problem is well formed. Work stops when the bound reaches `target`.
Cost lower_bound(const ChainProblem& problem, Cost target, const SolveLimits& limits);

}  // namespace spadework::graph::chains
