#pragma once

// What no plan of a TwoLevelProblem can undercut.

#include "graph/pair_routes.hpp"
#include "graph/shared_cost_solver.hpp"
#include "graph/two_level_problem.hpp"

namespace spadework::graph::two_level {

/// A lower bound proved in exact arithmetic. The problem is well formed. Work stops when the bound reaches `target`.
Cost lower_bound(const TwoLevelProblem& problem, Cost target, const pair_routes::StopRule& stop);

}  // namespace spadework::graph::two_level
