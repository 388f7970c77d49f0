#pragma once

// What no plan of a RingProblem that keeps the rule on cuts can undercut, by the claim of ring_certificate.hpp.

#include <functional>
#include <vector>

#include "graph/chain_certificate.hpp"
#include "graph/ring_problem.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph::rings {

/// What all rings together pay at least beside their hops and openings.
Cost least_for_rings(const RingProblem& problem);

/// Told now and then for each edge of the problem how much of it the averaged ways use, 0 to 1; gives back what the
/// best plan known costs.
using FlowFollower = std::function<Cost(const std::vector<double>& use)>;

/// Good prices, found by subgradient steps that `target`, the cost of some plan, steers. Every stop can be reached.
ChainCertificate prices_for(const RingProblem& problem, Cost target, const SolveLimits& limits,
                            const FlowFollower& follow);

}  // namespace spadework::graph::rings
