#pragma once

#include <optional>

#include "scenario/scenario.hpp"

namespace spadework {

/// The cheapest patch cord for a link of so many strands, an index into catalogue.patch_cords; nothing when the
/// catalogue has none. Ties go to the earlier.
std::optional<int> cheapest_cord(const Scenario& scenario, int strands);

}  // namespace spadework
