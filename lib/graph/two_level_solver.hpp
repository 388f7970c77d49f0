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
    std::optional<SharedCostCertificate> single;  ///< What proves the bound where the problem has one site only.
};

/// Units a feeder must hold to serve demands of so many units: served + spare_units + ceil(spare_share * served).
std::int64_t units_needed(const TwoLevelProblem& problem, std::int64_t served);

/// Empty plan and bound 0 where no plan exists or the figures may not be worked on (an unknown vertex, a negative
/// figure, sizes that do not ascend, or amounts so large that a plan might cost 2^58).
TwoLevelSolution solve(const TwoLevelProblem& problem, const SolveLimits& limits);

/// Exact cost of a plan, or nothing when it is not a plan for the problem.
std::optional<Cost> cost_of(const TwoLevelProblem& problem, const TwoLevelPlan& plan);

}  // namespace spadework::graph
