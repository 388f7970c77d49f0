#pragma once

#include "extension/assembling.hpp"

namespace spadework {

/// Puts the parts of an extended plan into the order that plans have, and moves every index along. Built cables keep
/// their order among each other; new trunks stand behind the trunks, other new cables behind the rest.
void put_in_order(ExtendedPlan& extended);

}  // namespace spadework
