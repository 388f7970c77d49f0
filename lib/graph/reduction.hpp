#pragma once

// A smaller problem with the same best plans and the same bounds.

#include <optional>

#include "graph/way_back.hpp"

namespace spadework::graph {

struct ReducedProblem {
    SharedCostProblem problem;
    WayBack way_back;
    bool one_measure = true;  ///< All demands of the original problem measure paths alike.
};

/// Leaves out what no best plan needs: roots that do not reach every demand, parts without a root, parallel edges that
/// another beats in every figure, dead ends. Joins edges at vertices where nothing starts, ends or forks. Moves demands
/// at dead ends inwards (the fixed cost of that is not in the reduced problem) and joins demands at one vertex that
/// measure paths alike. Nothing when no root reaches every demand. The problem must be well formed.
std::optional<ReducedProblem> reduced(const SharedCostProblem& problem);

}  // namespace spadework::graph
