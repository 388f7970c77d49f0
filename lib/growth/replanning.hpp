#pragma once

#include <optional>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// A plan for the buildings of today with the enclosure at one place, whose routes are those of the cheapest plan found
/// when the buildings that are likely to come (with a chance of a half or more, within the horizon) are there too.
/// Nothing where none is likely, or where there is no such plan.
std::optional<Plan> routed_for_growth(const Scenario& scenario, PlaceIndex enclosure);

}  // namespace spadework
