#pragma once

// The step between possible plan costs.

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// The greatest common divisor of every opening cost, every weight * length and every multiplicity * passage. The cost
/// of any plan less its root's is a multiple of it. 0 when all of them are zero (then every plan costs what its root
/// costs). 1 where a product is too large to hold.
Cost lattice_step(const SharedCostProblem& problem);

}  // namespace spadework::graph
