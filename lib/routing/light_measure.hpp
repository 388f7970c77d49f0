#pragma once

// A problem in one measure again (one_measure.hpp), in that of its lightest cables. There what an edge's passage is
// above the common rate counts as it means to the cable to which it means least, a heavy trunk: little, and too little
// for all the light cables that pass. Here it counts nearly as it means to the light ones. The heavy ones are then
// charged less all along, so that no edge charges them too much; what that leaves out along any of their ways, at
// least, goes into the cost of the root.

#include <optional>
#include <vector>

#include "graph/shared_cost_problem.hpp"

namespace spadework {

/// A problem without passage costs in which no plan costs more than in the original.
struct LightMeasure {
    graph::SharedCostProblem problem;  ///< The original's roots, each dearer by what is left out of all demands' ways.
    /// For each demand, what its charges leave out of every way from each root; an empty list where that is nothing.
    std::vector<std::vector<graph::Cost>> left_out;
};

/// The measure, of a few between that of the lightest cables and that of the heaviest, in which the plan costs most.
/// Nothing where all cables measure alike, or no such measure charges the plan more than `least`.
std::optional<LightMeasure> in_light_measure(const graph::SharedCostProblem& problem, const graph::SharedCostPlan& plan,
                                             graph::Cost least);

}  // namespace spadework
