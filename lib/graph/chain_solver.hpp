#pragma once

// Best plan and proven lower bound for a ChainProblem.

#include <optional>

#include "graph/chain_certificate.hpp"
#include "graph/chain_problem.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph {

struct ChainSolution {
    std::optional<ChainPlan>
        plan;  ///< Empty when some stop cannot be reached, or only by too long hops as far as found.
    /// Where no plan without too long hops was found one that has some, its value as if they were allowed.
    std::optional<ChainPlan> with_long_hops;
    Cost bound = 0;                ///< No plan costs less.
    ChainCertificate certificate;  ///< What proves `bound`; empty when a target gap of 1 or more asks for a plan only.
    bool interrupted = false;
};

/// Empty plan and bound 0 where no plan exists or the figures may not be worked on (an unknown vertex, a negative
/// figure, chains that may hold no stop, or amounts so large that a plan might cost 2^58). Plans are found by a
/// heuristic. The bound takes no notice of how long hops are.
ChainSolution solve(const ChainProblem& problem, const SolveLimits& limits);

/// Exact cost of a plan, or nothing when it is not a plan for the problem, be it that a hop is too long.
std::optional<Cost> cost_of(const ChainProblem& problem, const ChainPlan& plan);

}  // namespace spadework::graph
