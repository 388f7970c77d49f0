#pragma once

// Best plan and proven lower bound for a TwoLevelProblem.

#include <optional>
#include <vector>

#include "graph/shared_cost_solver.hpp"
#include "graph/two_level_problem.hpp"

namespace spadework::graph {

struct TwoLevelSolution {
    std::optional<TwoLevelPlan> plan;  ///< Best over all numbers of sites. Empty: not possible.
    Cost bound = 0;                    ///< No plan costs less.
    std::vector<std::optional<TwoLevelPlan>>
        best_by_count;  ///< Best plan found with exactly that many open sites; index 0 is none.
    bool interrupted = false;
};

TwoLevelSolution solve(const TwoLevelProblem& problem, const SolveLimits& limits);

/// Exact cost of a plan, or nothing when it is not a plan for the problem.
std::optional<Cost> cost_of(const TwoLevelProblem& problem, const TwoLevelPlan& plan);

}  // namespace spadework::graph
