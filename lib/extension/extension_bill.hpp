#pragma once

#include "costing/bill.hpp"
#include "extension/assembling.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// What an extension costs, with mobilisation, contingency and tax: its trenches, cables, links, enclosures, gear, and
/// the work on strands that begin to carry light in built trunks. Empty where nothing is new.
Bill price_of_extension(const Scenario& scenario, const ExtendedPlan& extended);

}  // namespace spadework
