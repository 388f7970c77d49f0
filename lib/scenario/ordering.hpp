#pragma once

#include "scenario/scenario.hpp"

namespace spadework {

/// Every list sorted by id (catalogue lists by size), and every index that points into one moved along.
void put_in_order(Scenario& scenario);

}  // namespace spadework
