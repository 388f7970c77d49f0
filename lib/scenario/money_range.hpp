#pragma once

#include "scenario/scenario.hpp"

namespace spadework {

/// Whether no plan for this site can cost more than 10^17 minor units, so that sums of money in 64 bits are exact. The
/// sum is taken over every segment opened in its dearest way with every cable in it, and the dearest product for every
/// link, device and enclosure; contingency and tax on top.
bool totals_can_be_counted(const Scenario& scenario);

}  // namespace spadework
