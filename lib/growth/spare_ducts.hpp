#pragma once

#include <vector>

#include "costing/bill.hpp"
#include "growth/two_stage.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// The bill of a plan, with a line for the spare duct beside each trunk that gets one in every trench it lies in.
Bill price_with_spare_ducts(const Scenario& scenario, const Plan& plan, const std::vector<TrunkChoice>& choices);

}  // namespace spadework
