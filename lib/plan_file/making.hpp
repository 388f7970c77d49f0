#pragma once

#include "comparison/comparison.hpp"
#include "plan_file/plan_file.hpp"
#include "scenario/scenario.hpp"

namespace spadework::plan_file {

/// The plan of a layout that can be built, with its sheets, by names. The scenario is the one it was planned on, with
/// its straight lines over open ground.
PlanFile plan_file_of(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework::plan_file
