#pragma once

// What the hops of all chains cost at least, openings left out.

#include <cstdint>
#include <vector>

#include "graph/chain_orders.hpp"

namespace spadework::graph::chains {

/// The least cost of hops and chains together, proved in integers. The hops of a plan make up a spanning tree of source
/// and stops in which the source has one hop for each chain, so at least stops / longest_chain of them, and every stop
/// has at most two. A spanning tree is cheapest when taken greedily; what the limits on the numbers of hops are worth
/// is found by penalties on them, raised along what the tree breaks (Held and Karp 1970; Fisher, "Optimal solution of
/// vehicle routing problems using minimum K-trees", Operations Research 42, 1994). `target` steers the steps.
Cost least_hops(const HopCosts& costs, Cost target);

}  // namespace spadework::graph::chains
