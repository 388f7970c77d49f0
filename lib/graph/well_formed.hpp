#pragma once

// Whether a problem may be worked on at all.

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// Every vertex named exists and no figure is negative.
bool well_formed(const SharedCostProblem& problem);

}  // namespace spadework::graph
