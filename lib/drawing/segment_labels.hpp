#pragma once

#include <vector>

#include "drawing/label_placing.hpp"
#include "drawing/plan_lines.hpp"
#include "scenario/scenario.hpp"

namespace spadework::drawing {

/// Labels that say how long each trench is and how many cables lie in it, for trenches long enough in the picture. They
/// choose after all others and are dropped where they would lie on a line.
std::vector<LabelWish> segment_wishes(const Scenario& scenario, const std::vector<DrawnTrench>& trenches);

}  // namespace spadework::drawing
