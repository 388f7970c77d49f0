#pragma once

// Trunks that were cut on their way for a further enclosure: two cables or more of the plan, spliced end to end.

#include <optional>
#include <vector>

#include "layout/plan.hpp"
#include "rates/link_loss.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// The cables from the hub to the end of a trunk, in order; a trunk that was never cut is one.
std::vector<int> parts_of_trunk(const Plan& plan, int cable);

/// The part that is spliced to the far end of a cable; nothing where the cable ends as any other.
std::optional<int> part_behind(const Plan& plan, int cable);

/// Strands of a trunk that end on adapters at its far end, and are not spliced through.
StrandNeed strands_ending(const Plan& plan, int cable);

/// What light passes in these cables, in order from the hub: a mated pair at each end and wherever one cable is plugged
/// to the next; joints, spliced ends, a splice wherever a trunk was cut and the light goes on, and the splice of the
/// pigtail where it ends at the cut.
GlassPath path_through(const Scenario& scenario, const Plan& plan, const std::vector<int>& cables);

}  // namespace spadework
