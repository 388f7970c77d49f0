#pragma once

// Whether a line keeps to open ground and out of obstacles: plain code that shares nothing with what lays lines out.

#include <string>

#include "scenario/scenario.hpp"

namespace spadework::verification {

/// What is wrong with a segment's course: it enters an obstacle that bars it, or is said to cross open ground and
/// leaves it. Empty when nothing is. The building or hub at an end may stand inside an obstacle, its own walls; and a
/// segment over open ground may begin or end outside it within the rules' reach.
std::string ground_fault(const Scenario& scenario, const Segment& segment);

/// Whether two straight segments lie all along under the same areas.
bool same_ground(const Scenario& scenario, const Segment& a, const Segment& b);

}  // namespace spadework::verification
