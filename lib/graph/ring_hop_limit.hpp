#pragma once

// Hops that may only be so long: what longer ones are charged while rings are looked for, and cheap ways that are short
// enough. Heuristics.

#include <optional>
#include <utility>
#include <vector>

#include "graph/ring_links.hpp"
#include "graph/ring_two_ways.hpp"

namespace spadework::graph::rings {

/// Keeps a search off hops beyond the network's limit, yet lets it pass over plans that have some. No part of what
/// plans cost.
class HopCharge {
public:
    /// A hop beyond the limit is charged `least` at least, and the more the longer it is.
    HopCharge(const LinkNetwork& network, Cost least);

    [[nodiscard]] bool limits() const { return limit_ != kAnyLength; }
    [[nodiscard]] Cost of(Length span) const { return span <= limit_ ? 0 : beyond(span); }
    [[nodiscard]] Cost of(const LinkPath& path) const { return limits() ? of(span(path)) : 0; }
    [[nodiscard]] Length span(const LinkPath& path) const;

    /// From here on such hops are charged several times as much.
    void raise();

private:
    [[nodiscard]] Cost beyond(Length span) const;

    const LinkNetwork* network_;
    Length limit_;
    Cost most_;  ///< So that no sum of charges overflows.
    Cost least_;
};

/// Looks for other ways where the cheapest are too long, by prices to which spans are added at weights found step by
/// step (after Handler and Zang, "A dual algorithm for the constrained shortest path problem", Networks 10, 1980).
class ShorterWays {
public:
    using Pair = std::pair<LinkPath, LinkPath>;

    ShorterWays(const LinkNetwork& network, WaySearch& ways);

    /// The cheapest way found, charges counted: `cheapest`, which costs least without them, or one that is shorter.
    LinkPath one(VertexId from, VertexId to, const std::vector<Cost>& price, const HopCharge& charge,
                 LinkPath cheapest);

    /// The same for two ways, from one vertex to each of two, that share no link but bridges.
    Pair two(VertexId from, VertexId to_first, VertexId to_second, const std::vector<Cost>& price,
             const HopCharge& charge, Pair cheapest);

private:
    template <class Ways, class Find>
    Ways cheapest_with_charges(Ways cheapest, const std::vector<Cost>& price, const HopCharge& charge, Find find);
    void mix(const std::vector<Cost>& price, Cost weight);
    void spans_alone(const std::vector<Cost>& price);

    const LinkNetwork& network_;
    WaySearch& ways_;
    Cost most_;  ///< Of one link, so that no way's sum overflows.
    std::vector<Cost> mixed_;
};

}  // namespace spadework::graph::rings
