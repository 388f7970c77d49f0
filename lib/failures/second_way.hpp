#pragma once

#include "failures/failures.hpp"

namespace spadework {

/// The cheapest way to join the two sides of the plan's trenches when a segment is cut: over segments open already for
/// nothing, over others at the price of opening them in their cheapest way. Ties go to the lower segment numbers.
SecondWay second_way(const Scenario& scenario, const Plan& plan, SegmentIndex cut);

}  // namespace spadework
