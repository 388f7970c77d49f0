#include "graph/ring_hop_limit.hpp"

#include <algorithm>

#include "graph/saturating.hpp"

namespace spadework::graph::rings {

namespace {

constexpr Cost kMostCharges = Cost{1} << 59;  ///< All together; plans themselves cost less than 2^58.
constexpr Cost kMostMixed = Cost{1} << 60;    ///< Of all links together.
constexpr Cost kRaise = 8;
constexpr int kWeights = 6;  ///< Tried for one way or two.

/// What ways cost, what they span, and what their hops are charged for it.
struct Measured {
    Cost price = 0;
    Length span = 0;
    Cost charge = 0;

    [[nodiscard]] Cost all() const { return price + charge; }
    friend bool operator==(const Measured&, const Measured&) = default;
};

void add_way(const LinkPath& path, const std::vector<Cost>& price, const HopCharge& charge, Measured& sum) {
    for (const std::int32_t l : path)
        sum.price += price[l];
    const Length span = charge.span(path);
    sum.span += span;
    sum.charge += charge.of(span);
}

Measured measured(const LinkPath& path, const std::vector<Cost>& price, const HopCharge& charge) {
    Measured sum;
    add_way(path, price, charge, sum);
    return sum;
}

Measured measured(const ShorterWays::Pair& ways, const std::vector<Cost>& price, const HopCharge& charge) {
    Measured sum;
    add_way(ways.first, price, charge, sum);
    add_way(ways.second, price, charge, sum);
    return sum;
}

}  // namespace

HopCharge::HopCharge(const LinkNetwork& network, Cost least)
    : network_(&network),
      limit_(network.longest_hop),
      most_(kMostCharges / (2 * static_cast<Cost>(network.stops.size()) + 2)),
      least_(std::clamp<Cost>(least, 1, most_)) {}

Length HopCharge::span(const LinkPath& path) const {
    Length span = 0;
    for (const std::int32_t l : path)
        span += network_->links[l].span;
    return span;
}

Cost HopCharge::beyond(Length span) const {
    const WideCost more = static_cast<WideCost>(least_) * (span - limit_) / (limit_ + 1);
    return static_cast<Cost>(std::min<WideCost>(most_, least_ + more));
}

void HopCharge::raise() {
    least_ = std::min(most_, times(least_, kRaise));
}

ShorterWays::ShorterWays(const LinkNetwork& network, WaySearch& ways)
    : network_(network), ways_(ways), most_(kMostMixed / (static_cast<Cost>(network.links.size()) + 1)) {}

void ShorterWays::mix(const std::vector<Cost>& price, Cost weight) {
    mixed_ = price;
    for (std::size_t l = 0; l < mixed_.size(); ++l) {
        if (price[l] >= 0) mixed_[l] = std::min(most_, add(price[l], times(weight, network_.links[l].span)));
    }
}

void ShorterWays::spans_alone(const std::vector<Cost>& price) {
    mixed_ = price;
    for (std::size_t l = 0; l < mixed_.size(); ++l) {
        if (price[l] >= 0) mixed_[l] = network_.links[l].span;
    }
}

template <class Ways, class Find>
Ways ShorterWays::cheapest_with_charges(Ways cheapest, const std::vector<Cost>& price, const HopCharge& charge,
                                        Find find) {
    Measured beyond = measured(cheapest, price, charge);
    Cost least = beyond.all();
    Ways best = std::move(cheapest);
    const auto look = [&] {
        std::optional<Ways> found = find(mixed_);
        const Measured here = found ? measured(*found, price, charge) : beyond;
        if (here.all() < least) {
            least = here.all();
            best = std::move(*found);
        }
        return here;
    };
    spans_alone(price);
    Measured within = look();
    for (int i = 0; i < kWeights && within.charge == 0 && within.span < beyond.span; ++i) {
        const Cost weight = (within.price - beyond.price) / (beyond.span - within.span);
        if (weight <= 0) break;
        mix(price, weight);
        const Measured next = look();
        if (next == within || next == beyond) break;
        (next.charge == 0 ? within : beyond) = next;
    }
    return best;
}

LinkPath ShorterWays::one(VertexId from, VertexId to, const std::vector<Cost>& price, const HopCharge& charge,
                          LinkPath cheapest) {
    return cheapest_with_charges(std::move(cheapest), price, charge,
                                 [&](const std::vector<Cost>& by) { return ways_.one_way(from, to, by); });
}

ShorterWays::Pair ShorterWays::two(VertexId from, VertexId to_first, VertexId to_second, const std::vector<Cost>& price,
                                   const HopCharge& charge, Pair cheapest) {
    return cheapest_with_charges(std::move(cheapest), price, charge, [&](const std::vector<Cost>& by) {
        return ways_.two_ways(from, to_first, to_second, by);
    });
}

}  // namespace spadework::graph::rings
