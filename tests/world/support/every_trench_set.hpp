#pragma once

// The cheapest plan of each layout by trying every set of opened segment ways: exhaustive, for a dozen ways at most.
//
// In a given set of open ways every cable takes its shortest way. That is its cheapest one where all ways charge
// passing cables alike, no handholes lie on the way and no duct has limited room, because everything a cable costs then
// grows with its length. Under those conditions the result is the true optimum of the layout, with every line rounded
// as in a bill, real length steps and real products.

#include <map>
#include <optional>

#include "layout/plan.hpp"
#include "world/support/own_prices.hpp"

namespace spadework::own {

/// Least total (contingency and tax included) of each layout; nothing where there is no plan.
std::map<LayoutKind, std::optional<Cents>> optima_over_trench_sets(const Scenario& site);

}  // namespace spadework::own
