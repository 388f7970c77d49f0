#include "graph/ring_shorter_ways.hpp"

namespace spadework::graph::rings {

Length span_of(const LinkNetwork& network, const LinkPath& path) {
    Length span = 0;
    for (const std::int32_t l : path)
        span += network.links[l].span;
    return span;
}

ShorterWays::ShorterWays(const LinkNetwork& network, WaySearch& ways)
    : network_(network), ways_(ways), most_((Cost{1} << 60) / (static_cast<Cost>(network.links.size()) + 1)) {}

const std::vector<Cost>& ShorterWays::weighed(const std::vector<Cost>& price, Weighing weighing) {
    weighed_ = price;
    for (std::size_t l = 0; l < weighed_.size(); ++l) {
        if (price[l] >= 0) weighed_[l] = weighing.of(price[l], network_.links[l].span, most_);
    }
    return weighed_;
}

void ShorterWays::add_way(const LinkPath& path, const std::vector<Cost>& price, const HopCharge& charge,
                          MeasuredWays& sum) const {
    for (const std::int32_t l : path)
        sum.price += price[l];
    const Length span = span_of(network_, path);
    sum.span += span;
    sum.charge += charge.of(span);
}

LinkPath ShorterWays::one(VertexId from, VertexId to, const std::vector<Cost>& price, const HopCharge& charge,
                          LinkPath cheapest) {
    const auto measure = [&](const LinkPath& path) {
        MeasuredWays sum;
        add_way(path, price, charge, sum);
        return sum;
    };
    return cheapest_with_charges(
        std::move(cheapest), [&](Weighing weighing) { return ways_.one_way(from, to, weighed(price, weighing)); },
        measure);
}

ShorterWays::Pair ShorterWays::two(VertexId from, VertexId to_first, VertexId to_second, const std::vector<Cost>& price,
                                   const HopCharge& charge, Pair cheapest) {
    const auto measure = [&](const Pair& ways) {
        MeasuredWays sum;
        add_way(ways.first, price, charge, sum);
        add_way(ways.second, price, charge, sum);
        return sum;
    };
    return cheapest_with_charges(
        std::move(cheapest),
        [&](Weighing weighing) { return ways_.two_ways(from, to_first, to_second, weighed(price, weighing)); },
        measure);
}

}  // namespace spadework::graph::rings
