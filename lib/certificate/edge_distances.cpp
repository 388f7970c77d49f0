#include "certificate/edge_distances.hpp"

#include <algorithm>
#include <queue>
#include <utility>

namespace spadework::certificate {

EdgeDistances::EdgeDistances(const Scenario& scenario, const std::vector<CertifiedEdge>& edges)
    : EdgeDistances(scenario, edges, std::vector<char>(edges.size(), 0)) {}

EdgeDistances::EdgeDistances(const Scenario& scenario, const std::vector<CertifiedEdge>& edges,
                             const std::vector<char>& closed)
    : into_(scenario.places.size()) {
    for (std::size_t e = 0; e < edges.size(); ++e) {
        if (closed[e]) continue;
        const Segment& segment = scenario.segments[static_cast<std::size_t>(edges[e].segment)];
        into_[static_cast<std::size_t>(segment.to)].push_back({segment.from, e, 0});
        into_[static_cast<std::size_t>(segment.from)].push_back({segment.to, e, 1});
    }
}

std::vector<std::optional<Wide>> EdgeDistances::to(PlaceIndex target, const DirectedCharges& charges) const {
    std::vector<std::optional<Wide>> distance(into_.size());
    using Entry = std::pair<Wide, PlaceIndex>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
    queue.emplace(0, target);
    while (!queue.empty()) {
        const auto [here, place] = queue.top();
        queue.pop();
        auto& known = distance[static_cast<std::size_t>(place)];
        if (known) continue;
        known = here;
        for (const Hop& hop : into_[static_cast<std::size_t>(place)]) {
            if (distance[static_cast<std::size_t>(hop.from)]) continue;
            queue.emplace(std::min(here + charges[hop.direction][hop.edge], most_distance), hop.from);
        }
    }
    return distance;
}

void add_prices(const std::vector<graph::EdgePrice>& prices, DirectedCharges& charges) {
    for (const graph::EdgePrice& price : prices)
        charges[price.backwards ? 1 : 0][static_cast<std::size_t>(price.edge)] += price.price;
}

}  // namespace spadework::certificate
