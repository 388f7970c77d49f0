#pragma once

// What no plan of a ChainProblem can undercut.

#include <vector>

#include "graph/chain_problem.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph::chains {

/// A lower bound proved in exact arithmetic, and the trees of edges that came out cheapest on the way: good ground for
/// plans.
struct ChainBound {
    Cost cost = 0;  ///< May be negative: ends of chains save.
    std::vector<std::vector<EdgeId>> trees;
};

/// What all chains together pay at least, less what their ends save at most, whatever their number: a bound at once,
/// since openings and hops cost nothing at the least.
Cost least_for_chains(const ChainProblem& problem);

/// The problem is well formed and `plan` one of its plans, the better the nearer the bound comes.
ChainBound lower_bound(const ChainProblem& problem, const ChainPlan& plan, const SolveLimits& limits);

}  // namespace spadework::graph::chains
