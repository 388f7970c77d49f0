#pragma once

// Plans of one fan-out point made cheaper by what cables cost as they are bought, which routing does not know.

#include "graph/pair_routes.hpp"
#include "layout/bought_bound.hpp"

namespace spadework {

/// The plan with its cables laid anew, one after the other, where the whole comes out cheaper so with cables as they
/// are bought: what other cables open costs a cable nothing. Its value is what the problem makes of it. Where no cable
/// is better off elsewhere, or time is up, the plan as it was.
graph::SharedCostPlan rerouted_as_bought(const graph::SharedCostProblem& problem, const BoughtCables& cables,
                                         graph::SharedCostPlan plan, const graph::pair_routes::StopRule& time);

}  // namespace spadework
