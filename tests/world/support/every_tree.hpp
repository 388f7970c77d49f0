#pragma once

// The cheapest plan with one fan-out point by dynamic programming over sets of terminals (Dreyfus and Wagner, "The
// Steiner problem in graphs", Networks 1, 1971), with cables that pay along their way: exact for nine terminals on maps
// of any size.
//
// Least cost of a tree rooted at v that serves the terminals of S: either it splits at v into two trees, or it goes
// along a segment to a tree rooted at the other end, and pays that segment's opening once and its length for every
// cable in S. A best plan is a tree where all cables rank routes alike, that is when every cable pays for every segment
// in one proportion to its length: then the tree of shortest ways within the opened segments serves everybody at once,
// at no higher cost. So the sites tried must let every way of opening charge passing cables the same a metre, and
// prices must come out in whole cents a metre, so that lines need no rounding.

#include <optional>

#include "world/support/own_prices.hpp"

namespace spadework::own {

/// Least total (contingency and tax included) of home runs; nothing where there is no plan.
std::optional<Cents> best_home_runs(const Scenario& site);

/// Least total of a trunk with one enclosure.
std::optional<Cents> best_trunk_with_one_enclosure(const Scenario& site);

}  // namespace spadework::own
