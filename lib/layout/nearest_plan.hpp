#pragma once

#include <optional>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Where no plan of a layout is possible: a plan by the shortest ways with the products that fall short least (see
/// Assembly), for checks to say what each limit is missed by. Trunk layouts serve every building from the place where
/// all cables together are shortest; chains take buildings in order of their distance, as many as the rules allow.
/// Nothing where even that cannot be written down, nor for chains of more than 64 buildings.
std::optional<Plan> nearest_plan(LayoutKind layout, const Scenario& scenario);

}  // namespace spadework
