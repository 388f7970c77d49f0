#pragma once

// What no plan of a RingProblem that keeps the rule on cuts can undercut, by the claim of ring_certificate.hpp.

#include "graph/chain_certificate.hpp"
#include "graph/ring_problem.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph::rings {

/// What all rings together pay at least beside their hops and openings.
Cost least_for_rings(const RingProblem& problem);

/// Good prices, found by subgradient steps that `target`, the cost of some plan, steers. Every stop can be reached.
ChainCertificate prices_for(const RingProblem& problem, Cost target, const SolveLimits& limits);

}  // namespace spadework::graph::rings
