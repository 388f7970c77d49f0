#pragma once

#include "graph/ring_problem.hpp"

namespace spadework::graph::rings {

/// Every vertex named exists, every edge has a cut and those of one cut join the same vertices and span the same, no
/// figure is negative, rings may hold a stop, no plan can cost 2^58 or more, and edges span less than that together.
bool well_formed(const RingProblem& problem);

}  // namespace spadework::graph::rings
