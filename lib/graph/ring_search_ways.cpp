// What a search for rings knows of its network, and the ways it finds there.

#include <algorithm>

#include "graph/ring_search.hpp"
#include "graph/saturating.hpp"

namespace spadework::graph::rings {

/// Between stops and source when each pays for opening all of its way.
void Search::measure_distances() {
    std::vector<VertexId> ends = network_.stops;
    ends.push_back(network_.source);
    for (const VertexId end : ends) {
        const std::vector<Cost>& from = ways_.all_from(end, price_);
        for (const VertexId other : ends)
            distance_.push_back(from[other]);
    }
}

/// The same by spans, where ends may lie so far apart that a hop between them is too long.
void Search::measure_spans() {
    std::vector<Cost> spans;
    for (const Link& link : network_.links)
        spans.push_back(link.span);
    const std::vector<Cost>& from_source = ways_.all_from(network_.source, spans);
    Cost farthest = 0;
    for (const VertexId stop : network_.stops)
        farthest = std::max(farthest, from_source[stop]);
    if (farthest <= network_.longest_hop / 2) return;
    std::vector<VertexId> ends = network_.stops;
    ends.push_back(network_.source);
    for (const VertexId end : ends) {
        const std::vector<Cost>& from = ways_.all_from(end, spans);
        for (const VertexId other : ends)
            span_.push_back(from[other]);
    }
}

/// The bridges by which parts hang together, from each stop's part on.
void Search::list_bridges() {
    std::vector<std::int32_t> bridge_above(network_.part_up.size(), -1);
    for (std::size_t l = 0; l < network_.links.size(); ++l) {
        const Link& link = network_.links[l];
        if (!link.bridge) continue;
        const std::int32_t a = part_of(link.tail);
        const std::int32_t b = part_of(link.head);
        bridge_above[network_.part_up[a] == b ? a : b] = static_cast<std::int32_t>(l);
    }
    for (const VertexId stop : network_.stops) {
        bridges_.emplace_back();
        for (std::int32_t part = part_of(stop); network_.part_up[part] >= 0; part = network_.part_up[part])
            bridges_.back().push_back(bridge_above[part]);
    }
}

Cost Search::apart(std::int32_t row, std::int32_t column) const {
    return distance_[static_cast<std::size_t>(row) * (network_.stops.size() + 1) + static_cast<std::size_t>(column)];
}

/// The least that a hop between the two spans; 0 where no hop need be too long.
Length Search::span_apart(std::int32_t row, std::int32_t column) const {
    if (span_.empty()) return 0;
    return span_[static_cast<std::size_t>(row) * (network_.stops.size() + 1) + static_cast<std::size_t>(column)];
}

VertexId Search::end_before(const Round& round, std::size_t gap) const {
    return gap == 0 ? network_.source : network_.stops[round.stops[gap - 1]];
}

VertexId Search::end_after(const Round& round, std::size_t gap) const {
    return gap == round.stops.size() ? network_.source : network_.stops[round.stops[gap]];
}

void Search::use(const LinkPath& path, int times) {
    cost_ += times * charge_of(path);
    for (const std::int32_t l : path) {
        const Link& link = network_.links[l];
        cost_ += link.cost(uses_[l] + times) - link.cost(uses_[l]);
        uses_[l] += times;
        price_[l] = link.cost(uses_[l] + 1) - link.cost(uses_[l]);
    }
}

void Search::ban(const LinkPath& path) {
    for (const std::int32_t l : path) {
        if (!network_.links[l].bridge) price_[l] = -1;
    }
}

void Search::allow(const LinkPath& path) {
    for (const std::int32_t l : path)
        price_[l] = network_.links[l].cost(uses_[l] + 1) - network_.links[l].cost(uses_[l]);
}

/// What the cost rises by when both paths are used; nothing is changed.
Cost Search::change_of(const LinkPath& one, const LinkPath& other) {
    Cost change = charge_of(one) + charge_of(other);
    for (const LinkPath* path : {&one, &other}) {
        for (const std::int32_t l : *path) {
            change += network_.links[l].cost(uses_[l] + 1) - network_.links[l].cost(uses_[l]);
            ++uses_[l];
        }
    }
    for (const LinkPath* path : {&one, &other}) {
        for (const std::int32_t l : *path)
            --uses_[l];
    }
    return change;
}

/// The least by which charges change when the stop comes into the gap.
Cost Search::charge_change(std::int32_t stop, const Round& round, std::size_t gap) const {
    const auto source = static_cast<std::int32_t>(network_.stops.size());
    const std::int32_t before = gap == 0 ? source : round.stops[gap - 1];
    const std::int32_t after = gap == round.stops.size() ? source : round.stops[gap];
    return charge_.of(span_apart(before, stop)) + charge_.of(span_apart(stop, after)) - charge_of(round.hops[gap]);
}

std::optional<LinkPath> Search::one_way(VertexId from, VertexId to, Cost below) {
    auto found = ways_.one_way(from, to, price_, below);
    if (!found || charge_of(*found) == 0) return found;
    return shorter_.one(from, to, price_, charge_, std::move(*found));
}

std::optional<ShorterWays::Pair> Search::two_ways(VertexId from, VertexId to_first, VertexId to_second, Cost below) {
    auto found = ways_.two_ways(from, to_first, to_second, price_, below);
    const auto charged = [&](const ShorterWays::Pair& ways) {
        return charge_of(ways.first) > 0 || charge_of(ways.second) > 0;
    };
    if (!found || !charged(*found)) return found;
    ShorterWays::Pair best = shorter_.two(from, to_first, to_second, price_, charge_, std::move(*found));
    if (!charged(best)) return best;
    Cost least = change_of(best.first, best.second);
    for (const bool first_before : {true, false}) {
        auto other = first_before ? by_turns(from, to_first, to_second) : by_turns(from, to_second, to_first);
        if (!other) continue;
        if (!first_before) std::swap(other->first, other->second);
        const Cost change = change_of(other->first, other->second);
        if (change >= least) continue;
        least = change;
        best = std::move(*other);
    }
    return best;
}

/// One way as short as it must be, and then another that keeps off it.
std::optional<ShorterWays::Pair> Search::by_turns(VertexId from, VertexId to_first, VertexId to_second) {
    auto first = one_way(from, to_first);
    if (!first) return std::nullopt;
    ban(*first);
    auto second = one_way(from, to_second);
    allow(*first);
    if (!second) return std::nullopt;
    return ShorterWays::Pair(std::move(*first), std::move(*second));
}

std::vector<std::int32_t> Search::stops_at_long_hops() const {
    std::vector<std::int32_t> stops;
    if (!charge_.limits()) return stops;
    for (const Round& round : rounds_) {
        for (std::size_t h = 0; h < round.hops.size(); ++h) {
            if (charge_of(round.hops[h]) > 0) stops.push_back(round.stops[std::min(h, round.stops.size() - 1)]);
        }
    }
    return stops;
}

Cost Search::cost() const {
    Cost cost = cost_;
    for (const Round& round : rounds_) {
        for (const LinkPath& hop : round.hops)
            cost -= charge_of(hop);
    }
    return cost;
}

bool Search::reaches_too_far() const {
    return !stops_at_long_hops().empty();
}

void Search::insist() {
    charge_.raise();
    const Rounds rounds = rounds_;
    start_from(rounds);
}

}  // namespace spadework::graph::rings
