#pragma once

// What no plan of a TwoLevelProblem can undercut.

#include "graph/pair_routes.hpp"
#include "graph/two_level_problem.hpp"

namespace spadework::graph::two_level {

struct BoundLimits {
    Cost enough = 0;  ///< A bound this high ends the work.
    int threads = 1;
    const pair_routes::StopRule* stop = nullptr;
};

/// A lower bound proved in exact arithmetic. The problem is well formed and `plan` one of its plans, the better the
/// nearer the bound comes. `toll` is what one more site than allowed is thought to save; any value gives a valid bound.
Cost lower_bound(const TwoLevelProblem& problem, const TwoLevelPlan& plan, Cost toll, const BoundLimits& limits);

}  // namespace spadework::graph::two_level
