#pragma once

// The cheapest home runs, and the cheapest trunk with one enclosure, by trying every simple path of every cable in
// every combination. Knows everything that makes routes depend on each other or cables on more than their length: ducts
// with limited room, ways that charge passing cables differently, coils in handholes, joints, and how far and through
// how many connectors light must go. For a handful of places only.

#include <optional>

#include "world/support/own_prices.hpp"

namespace spadework::own {

std::optional<Cents> best_home_runs_over_paths(const Scenario& site);
std::optional<Cents> best_trunk_with_one_enclosure_over_paths(const Scenario& site);

}  // namespace spadework::own
