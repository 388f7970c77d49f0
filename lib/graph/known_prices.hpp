#pragma once

// Prices to start from that were found for a problem much like the one to solve.

#include <cstdint>
#include <vector>

#include "graph/dual_ascent.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph {

/// Whole prices as in a SharedCostCertificate; on no edge do they come to more than its opening cost.
struct KnownPrices {
    EdgePriceSet prices;
    std::int64_t parts = 1;
};

/// The same as if a dual ascent had found them. `to_root` as there.
std::vector<AscentPrices> as_ascent(const SearchNetwork& network, VertexId root, const std::vector<PathLength>& to_root,
                                    const KnownPrices& known);

}  // namespace spadework::graph
