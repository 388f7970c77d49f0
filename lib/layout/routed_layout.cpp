#include "layout/routed_layout.hpp"

namespace spadework {

Route route_along(const Network& network, const std::vector<graph::EdgeId>& path, PlaceIndex from, PlaceIndex to) {
    Route route{from, to, {}};
    route.steps.reserve(path.size());
    for (const graph::EdgeId edge : path) {
        const NetworkEdge& origin = network.origin[static_cast<std::size_t>(edge)];
        route.steps.push_back({origin.segment, origin.way});
    }
    return route;
}

}  // namespace spadework
