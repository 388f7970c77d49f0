#include "layout/room_prices.hpp"

#include <algorithm>
#include <map>

namespace spadework {

namespace {

void count_route(const Route& route, std::map<Step, int>& uses) {
    for (const Step& step : route.steps)
        ++uses[step];
}

std::map<Step, int> uses_of(const RoutedLayout& routed) {
    std::map<Step, int> uses;
    for (const RoutedEnclosure& enclosure : routed.enclosures)
        count_route(enclosure.trunk, uses);
    for (const RoutedBuilding& building : routed.buildings)
        count_route(building.route, uses);
    for (const Route& closing : routed.closings)
        count_route(closing, uses);
    return uses;
}

}  // namespace

RoomPrices::RoomPrices(const Network& network) : network_(network) {
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        if (network.origin[e].room >= 0) limited_.push_back({e, 0});
    }
}

Network RoomPrices::priced() const {
    Network network = network_;
    for (const Limited& limited : limited_)
        network.edges[limited.edge].passage += limited.price;
    return network;
}

graph::Cost RoomPrices::rebate() const {
    graph::Cost sum = 0;
    for (const Limited& limited : limited_)
        sum += limited.price * network_.origin[limited.edge].room;
    return sum;
}

bool RoomPrices::adjust(const RoutedLayout& routed, graph::Cost gap, double share) {
    const std::map<Step, int> uses = uses_of(routed);
    std::vector<int> excess;
    double squares = 0;
    bool any_over = false;
    for (const Limited& limited : limited_) {
        const NetworkEdge& origin = network_.origin[limited.edge];
        const auto used = uses.find({origin.segment, origin.way});
        const int over = (used == uses.end() ? 0 : used->second) - origin.room;
        // A price of nothing cannot fall, so room left there is no direction to go.
        excess.push_back(limited.price == 0 ? std::max(0, over) : over);
        squares += static_cast<double>(excess.back()) * excess.back();
        any_over = any_over || over > 0;
    }
    const double step = squares > 0 ? share * static_cast<double>(gap) / squares : 0;
    for (std::size_t i = 0; i < limited_.size(); ++i) {
        const auto change = static_cast<graph::Cost>(step * excess[i]);
        limited_[i].price = std::max<graph::Cost>(0, limited_[i].price + change);
    }
    return any_over;
}

}  // namespace spadework
