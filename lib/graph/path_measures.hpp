#pragma once

// Which demands measure paths alike.

#include <cstdint>
#include <vector>

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// For each demand the number of its proportion of weight to multiplicity, from 0 in order of first use. Demands of one
/// proportion rank all paths alike, so some best plan gives them paths that make up one tree. Where all passages or all
/// lengths are zero, or for a demand that pays nothing, the proportion does not matter and the number is 0.
std::vector<std::int32_t> path_measures(const SharedCostProblem& problem);

}  // namespace spadework::graph
