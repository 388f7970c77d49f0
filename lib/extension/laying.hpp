#pragma once

#include <optional>
#include <vector>

#include "extension/assembling.hpp"
#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// A cable of so many links along a route, before it is cut into products.
struct Load {
    int links = 0;
    StrandNeed need;
};

/// Adds cables of the cheapest products along a route to the plan, called after the model's id and like it otherwise;
/// for each of the links the cable that it runs in. Nothing where the catalogue has none that hold the strands.
std::optional<std::vector<int>> lay_cables(const Scenario& scenario, ExtendedPlan& extended, const Route& route,
                                           const Load& load, PlannedCable model);

}  // namespace spadework
