#pragma once

// Cheap ways over a LinkNetwork that are short enough for a hop, where the cheapest are not. Heuristics.

#include <utility>
#include <vector>

#include "graph/hop_charge.hpp"
#include "graph/ring_links.hpp"
#include "graph/ring_two_ways.hpp"

namespace spadework::graph::rings {

[[nodiscard]] Length span_of(const LinkNetwork& network, const LinkPath& path);

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
    const std::vector<Cost>& weighed(const std::vector<Cost>& price, Weighing weighing);
    void add_way(const LinkPath& path, const std::vector<Cost>& price, const HopCharge& charge,
                 MeasuredWays& sum) const;

    const LinkNetwork& network_;
    WaySearch& ways_;
    Cost most_;  ///< Of one link, so that no way's sum overflows.
    std::vector<Cost> weighed_;
};

}  // namespace spadework::graph::rings
