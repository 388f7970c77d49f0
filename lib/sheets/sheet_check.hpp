#pragma once

#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Looks the sheets of a layout over, counting again from its plan and bill: the cable order has every cable once, as
/// long as it is needed, and its sum is the bill's; materials and crew hours add up to the bill; stretches to pull make
/// up each cable's route; every strand of every link is on the test sheet, through its cables in order, with limits no
/// looser than its optics; every cable end, plugged strand end, enclosure and piece of gear has a label. One sentence
/// for each thing wrong; empty when all holds. For a layout that can be built.
std::vector<std::string> sheet_violations(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework
