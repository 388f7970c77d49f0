#pragma once

// The cheapest rings by trying every order of the buildings, every way to cut it into rings and every simple way of
// every cable: exhaustive, for three or four buildings and a dozen segments at most. Ducts with limited room are not
// looked at.

#include <optional>

#include "world/support/own_prices.hpp"

namespace spadework::own {

/// Least total (contingency and tax included) of rings in which no cut takes down a building that the map gives
/// another way; nothing where there is no plan. Every line is rounded as in a bill.
std::optional<Cents> optimum_of_rings(const Scenario& site);

}  // namespace spadework::own
