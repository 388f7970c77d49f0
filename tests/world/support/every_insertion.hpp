#pragma once

#include <optional>

#include "layout/plan.hpp"
#include "world/support/own_prices.hpp"

namespace spadework::own {

/// Least direct cost, mobilisation apart, of putting a new building into a chain or ring before one of its buildings,
/// by trying every place in it and every path of both new cables; nothing where there is none. A ring keeps its closing
/// cable, and no cut of a segment may take a building down that it did not take down before.
std::optional<Cents> best_insertion(const Scenario& site, const Plan& built, const Building& added);

}  // namespace spadework::own
