#pragma once

// What a cable pays on an edge, split between opening the edge and hopping over it.

#include <vector>

#include "graph/chain_hop_bound.hpp"
#include "graph/chain_problem.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph::chains {

/// For each edge a part of a cable's charge, 0 up to the whole, that counts as opening cost. An open edge carries at
/// least one cable, so with part b of charge c the n cables on it pay n * c >= b + n * (c - b): whatever the parts,
/// opening edges at their opening cost plus b and hopping at c - b together cost no more than any plan.
using CostSplit = std::vector<Cost>;

/// The stops' joining problem with the parts in the opening costs.
SharedCostProblem joining_problem(const ChainProblem& problem, const CostSplit& split);

/// The chain problem with the parts taken off what hops pay.
ChainProblem hopping_problem(const ChainProblem& problem, const CostSplit& split);

/// Hop costs over shortest ways of a hopping problem.
HopCosts shortest_hops(const ChainProblem& problem);

/// A split under which the two parts together come high: a few rounds of moving each edge's part up where the cheapest
/// joining opens it and the cheapest hops leave it out, and down where they pass it more often. Heuristic; any split is
/// valid. `target` is what a plan costs.
CostSplit good_split(const ChainProblem& problem, const std::vector<StopGroup>& groups, Cost target,
                     const SolveLimits& limits);

}  // namespace spadework::graph::chains
