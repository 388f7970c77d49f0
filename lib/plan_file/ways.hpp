#pragma once

#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::plan_file {

/// What each of ways_of(scenario, segment) is called in a plan file: the id of a method of the segment's ground,
/// "existing duct" or "pole line".
std::vector<std::string> way_names(const Scenario& scenario, SegmentIndex segment);

}  // namespace spadework::plan_file
