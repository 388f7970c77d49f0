#pragma once

// Which vertices can be reached from which.

#include <cstdint>
#include <vector>

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// For each vertex the number of its connected part, from 0 in order of the parts' smallest vertices.
std::vector<std::int32_t> connected_parts(const SharedCostProblem& problem);

}  // namespace spadework::graph
