#pragma once

// First prices: demands take turns paying for what keeps them from the root.

#include <vector>

#include "graph/arc.hpp"

namespace spadework::graph {

/// What one demand has paid.
struct AscentPrices {
    std::vector<ArcPrice> prices;
    double paid = 0.0;  ///< Its priced distance from the root exceeds the price-free one by at least this.
};

/// Each demand grows a set of vertices around it and pays evenly on all arcs that enter the set, own charge first, then
/// opening cost that nobody has paid yet; an arc with nothing left to pay lets its tail into the set. The demand with
/// the fewest arcs to pay goes next. Charges are taken against `to_root` (weight*(length + D_tail - D_head)), so sets
/// stay narrow. Wong, "A dual ascent approach for Steiner tree problems on a directed graph", Mathematical Programming
/// 28 (1984); Balakrishnan, Magnanti, Wong (1989). With `network.one_measure` each direction of an edge has its opening
/// cost to be paid, otherwise both directions share it.
std::vector<AscentPrices> dual_ascent(const SearchNetwork& network, VertexId root,
                                      const std::vector<PathLength>& to_root);

}  // namespace spadework::graph
