#pragma once

// Existing ducts have room for so many cables and no more.

#include <vector>

#include "layout/plan.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Ways with limited room that more routes pass than they have room for.
WithheldWays ways_over_room(const Scenario& scenario, const std::vector<const std::vector<Step>*>& routes);

/// Moves cables out of ducts that are over their room: the first cables in the plan's order stay, the later ones take
/// the other way of the segment that is then cheapest, opening counted unless another cable has opened it. Returns a
/// note for each duct it emptied in part.
std::vector<std::string> respect_duct_room(const Scenario& scenario, std::vector<PlannedCable>& cables);

}  // namespace spadework
