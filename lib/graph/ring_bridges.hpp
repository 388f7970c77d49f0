#pragma once

#include <vector>

#include "graph/ring_problem.hpp"

namespace spadework::graph::rings {

/// For each edge whether its cut parts vertices that are joined without it. The problem is well formed.
std::vector<char> bridges_of(const RingProblem& problem);

}  // namespace spadework::graph::rings
