#pragma once

// An edge with a direction, as one number.

#include "graph/search_network.hpp"

namespace spadework::graph {

using ArcId = std::int32_t;  ///< 2 * edge for tail to head, 2 * edge + 1 for head to tail.

inline ArcId arc_from(const SearchNetwork& network, EdgeId edge, VertexId from) {
    return 2 * edge + (network.tail[edge] == from ? 0 : 1);
}
inline EdgeId edge_of(ArcId arc) {
    return arc / 2;
}

/// One demand's price on an arc.
struct ArcPrice {
    ArcId arc = 0;
    double price = 0.0;
};

}  // namespace spadework::graph
