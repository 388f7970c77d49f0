#pragma once

// What the hops of all chains cost at least, openings left out.

#include <cstdint>
#include <utility>
#include <vector>

#include "graph/chain_orders.hpp"

namespace spadework::graph::chains {

/// Stops that lie together: chains that visit them have at least one hop each from outside, so there are at least
/// size / longest_chain such hops.
using StopGroup = std::vector<std::int32_t>;

/// The least cost of hops and chains together, proved in integers. The hops of a plan make up a spanning tree of source
/// and stops in which the source has one hop for each chain, so at least stops / longest_chain of them, and every stop
/// has at most two. A spanning tree is cheapest when taken greedily; what the limits on the numbers of hops are worth
/// is found by penalties on them, raised along what the tree breaks (Held and Karp 1970; Fisher, "Optimal solution of
/// vehicle routing problems using minimum K-trees", Operations Research 42, 1994), as is what the least numbers of hops
/// into the given groups are worth. `target` steers the steps.
Cost least_hops(const HopCosts& costs, const std::vector<StopGroup>& groups, Cost target);

/// The same with the hops of the tree that proves it, as pairs of stops joined; -1 stands for the source.
struct HopBound {
    Cost cost = 0;
    std::vector<std::pair<std::int32_t, std::int32_t>> hops;
};
HopBound least_hop_tree(const HopCosts& costs, const std::vector<StopGroup>& groups, Cost target);

}  // namespace spadework::graph::chains
