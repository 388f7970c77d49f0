#pragma once

#include "graph/chain_certificate.hpp"
#include "graph/ring_problem.hpp"
#include "graph/saturating.hpp"

namespace spadework::graph::rings {

/// The sum of D of the claim of ring_certificate.hpp, by code that nothing else uses. The problem is well formed, every
/// stop can be reached, and figures are in range.
WideCost least_two_ways(const RingProblem& problem, const ChainCertificate& certificate);

}  // namespace spadework::graph::rings
