#pragma once

// What no plan of a RingProblem that keeps the rule on cuts can undercut.
//
// Two parts that share no link, and so add up.
//
// Bridges. With n stops behind a bridge at least ceil(n / longest_ring) rings pass it, each twice.
//
// The rest, by prices. Take any plan. Let x_tj be 1 where the ring of stop t passes link j of those that are no
// bridges; a ring passes each such link at most once. Let r_j be the number of rings on link j; the link costs
// opening_j + r_j * charge_j when r_j > 0. Then
//   - r_j >= x_tj for every stop t, and longest_ring * r_j >= the sum of x_tj over all stops;
//   - the links of stop t's ring hold two ways from t to the source that share none but bridges.
// So for whole s_j >= 0 with longest_ring * s_j <= charge_j, and prices v_tj >= 0 that sum over the stops to no more
// than opening_j + charge_j - longest_ring * s_j, the link costs at least the sum of (v_tj + s_j) x_tj, and all links
// together at least the sum over the stops of the two cheapest such ways under the prices v_tj + s_j. Any prices prove
// that, and it is worked out in whole numbers. (Lagrangian dual of the flow model of two-connected networks with
// disaggregated openings; Magnanti and Raghavan, "Strong formulations for network design problems with connectivity
// requirements", Networks 45, 2005, discuss such models.) Stops that bridges alone part count as one with their number
// as weight.
//
// Good prices are found by subgradient steps, in floating point: a heuristic.

#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/ring_search.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph::rings {

/// What rings and bridges cost at the least: a bound at once, all other links counted as free.
Cost least_for_bridges(const LinkNetwork& network, const RingFigures& figures);

/// `rounds` is a plan and `target` its cost; both steer the steps. A network too large for prices gets a less tight
/// bound.
Cost lower_bound(const LinkNetwork& network, const RingFigures& figures, const Rounds& rounds, Cost target,
                 const SolveLimits& limits);

}  // namespace spadework::graph::rings
