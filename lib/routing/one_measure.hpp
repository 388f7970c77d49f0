#pragma once

// Cables differ in price a metre but pay the same duct and pulling, so the proportion of the two differs from cable to
// cable, and no two need agree on which of two ways is the shorter. A solver proves far better bounds where all agree.
// Here a problem is put into one measure: what is common to the passages goes into the weights, and what is left over
// is counted, in each edge's length, as the cable to which it means least would count it.

#include <vector>

#include "graph/shared_cost_problem.hpp"
#include "graph/shared_cost_solver.hpp"
#include "graph/two_level_solver.hpp"

namespace spadework {

/// A problem without passage costs in which no plan costs more than in the original, nor do two plans differ in which
/// edges they may use.
struct OneMeasure {
    graph::SharedCostProblem problem;
    bool exact = false;  ///< Every edge has the common passage a length unit: only rounding is lost.
};

OneMeasure in_one_measure(const graph::SharedCostProblem& problem);

/// The passage cost a length unit, rounded down, that most length has.
graph::Cost common_passage_rate(const std::vector<graph::SharedCostEdge>& edges);

/// A problem as it was solved, and the prices that bound it.
struct ProvedProblem {
    graph::SharedCostProblem problem;
    graph::SharedCostCertificate certificate;
    /// What roots cost besides because charges leave it out, for each demand and root; see LightMeasure.
    std::vector<std::vector<graph::Cost>> left_out = {};
};

struct MeasuredSolution : graph::SharedCostSolution {
    /// What the bounds rest on: for each root, the best that any of these proves.
    std::vector<ProvedProblem> proofs;
};

/// Solves a problem in one measure, which bounds it, and prices the plan as the original does; where the measure is not
/// exact, in the one that charges a sketched plan most (LightMeasure). A small problem of which that leaves something
/// is solved as it is as well, and the better bound and plan are kept; a large one has a plan sketched as it is.
MeasuredSolution solve_by_measure(const graph::SharedCostProblem& problem, const graph::SolveLimits& limits);

/// The same for fan-out points, feeders measured with everybody's own cables.
struct TwoLevelMeasure {
    graph::TwoLevelProblem problem;
    bool exact = false;
};

TwoLevelMeasure in_one_measure(const graph::TwoLevelProblem& problem);

struct MeasuredTwoLevel : graph::TwoLevelSolution {
    graph::TwoLevelProblem proved;  ///< The problem as it was solved: what the bound and its certificate speak of.
};

/// Solves a problem with fan-out points as it is where everybody's own cables are alike, else in one measure, which
/// bounds it, and prices its plans as the original does. Where the measure is not exact, plans are looked for in the
/// problem as it is, too.
MeasuredTwoLevel solve_by_measure(const graph::TwoLevelProblem& problem, const graph::SolveLimits& limits);

}  // namespace spadework
