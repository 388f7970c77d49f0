#pragma once

// How a plan serves one building.

#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "study/explanation.hpp"

namespace spadework {

/// From where the building gets its cable, and along how many metres.
Service service_of(const Plan& plan, BuildingIndex building);

/// Metres dug along the building's own cables, for them alone and for others too.
struct OwnAndShared {
    Length own;
    Length shared;
};
OwnAndShared trench_along(const Scenario& scenario, const Plan& plan, BuildingIndex building);

/// Segments on the building's own cable that no other cable uses, from its start on.
std::vector<SegmentIndex> segments_alone(const Plan& plan, BuildingIndex building);

/// One segment for each stretch of `segments` (in the order of a route) that has no turning off on the way: banning one
/// of the stretch bans it all. The last of each stretch.
std::vector<SegmentIndex> one_of_each_stretch(const Scenario& scenario, const std::vector<SegmentIndex>& segments);

}  // namespace spadework
