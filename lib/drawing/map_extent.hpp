#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework::drawing {

/// Positions that a plan must show: the hub, the buildings, and everything the plan uses; the rest of the map as well
/// where that does not make the plan much smaller. At least one.
std::vector<Position> plan_extent(const Scenario& scenario, const LayoutResult& result);

/// The same for a map of places.
std::vector<Position> extent_with(const Scenario& scenario, std::vector<Position> needed);

/// An id made of a to z, digits and hyphens, of a text of any origin; 24 characters at most.
std::string plain_id(std::string_view text);

}  // namespace spadework::drawing
