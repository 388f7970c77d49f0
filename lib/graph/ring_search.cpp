#include "graph/ring_search.hpp"

#include <algorithm>
#include <numeric>

#include "graph/saturating.hpp"

namespace spadework::graph::rings {

namespace {

constexpr std::size_t kGaps = 3;  ///< Gaps tried for a stop.
constexpr int kShakesOfFollower = 10;
constexpr Cost kFarthestWays = 4;  ///< What a hop too long is charged: more than what splitting its ring costs.

/// The network with parts of openings paid.
LinkNetwork partly_paid(const LinkNetwork& network, const std::vector<SharedCostEdge>& edges,
                        const std::vector<double>& use) {
    LinkNetwork cheap = network;
    for (Link& link : cheap.links) {
        for (LinkWay& way : link.ways) {
            double left = 0.0;
            for (const EdgeId e : way.edges)
                left += static_cast<double>(edges[e].opening) * (1.0 - use[e]);
            way.opening = std::clamp<Cost>(static_cast<Cost>(left), 0, way.opening);
        }
    }
    return cheap;
}

}  // namespace

Search::Search(const LinkNetwork& network, const RingFigures& figures, const pair_routes::StopRule& stop,
               std::uint64_t seed)
    : network_(network), figures_(figures), stop_(&stop), ways_(network), shorter_(network, ways_), random_(seed) {
    start_from({});
    measure_distances();
    list_bridges();
    led_on_.assign(network.links.size(), 0);
    if (network.longest_hop == kAnyLength) return;
    const Cost farthest = *std::max_element(distance_.begin(), distance_.end());
    charge_ = HopCharge(network.longest_hop, add(figures.ring_cost, times(farthest, kFarthestWays)),
                        2 * static_cast<Cost>(network.stops.size()));
    measure_spans();
}

void Search::start_from(const Rounds& rounds) {
    rounds_ = {};
    uses_.assign(network_.links.size(), 0);
    price_.clear();
    for (const Link& link : network_.links)
        price_.push_back(link.cost(1));
    cost_ = 0;
    for (const Round& round : rounds) {
        rounds_.push_back(round);
        cost_ += figures_.ring_cost;
        for (const LinkPath& hop : round.hops)
            use(hop, 1);
    }
}

/// Whether all stops of the round behind any bridge still follow each other when the stop comes into the gap.
bool Search::keeps_together(std::int32_t stop, const Round& round, std::size_t gap) const {
    const std::int32_t own = part_of(network_.stops[stop]);
    const std::int32_t before = part_of(end_before(round, gap));
    const std::int32_t after = part_of(end_after(round, gap));
    const std::int32_t passed = network_.meeting(before, after);
    if (network_.meeting(passed, own) != passed) return false;
    const std::int32_t joined =
        std::max(network_.depth[network_.meeting(own, before)], network_.depth[network_.meeting(own, after)]);
    return std::all_of(round.stops.begin(), round.stops.end(), [&](std::int32_t other) {
        return network_.depth[network_.meeting(own, part_of(network_.stops[other]))] <= joined;
    });
}

/// Gaps with room, those first that lie nearest by what one more cable costs now, as if old hops stayed open.
std::vector<Search::Place> Search::near_gaps(std::int32_t stop, const std::vector<Cost>& distance) const {
    std::vector<Place> places;
    for (std::size_t r = 0; r < rounds_.size(); ++r) {
        const Round& round = rounds_[r];
        if (round.stops.size() >= static_cast<std::size_t>(figures_.longest_ring)) continue;
        for (std::size_t gap = 0; gap < round.hops.size(); ++gap) {
            const Cost before = distance[end_before(round, gap)];
            const Cost after = distance[end_after(round, gap)];
            if (before == kLargestCost || after == kLargestCost || !keeps_together(stop, round, gap)) continue;
            Place place;
            place.round = static_cast<std::int32_t>(r);
            place.gap = gap;
            place.change = add(before, after);
            for (const std::int32_t l : round.hops[gap])
                place.change -= price_[l];
            if (charge_.limits()) place.change += charge_change(stop, round, gap);
            places.push_back(std::move(place));
        }
    }
    std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.change < b.change; });
    if (places.size() > kGaps) places.resize(kGaps);
    return places;
}

/// What two cables over every bridge between the stop and the source cost less than twice what one more does.
Cost Search::saved_on_bridges(std::int32_t stop) const {
    Cost saved = 0;
    for (const std::int32_t l : bridges_[stop]) {
        const Link& link = network_.links[l];
        saved += 2 * price_[l] - (link.cost(uses_[l] + 2) - link.cost(uses_[l]));
    }
    return saved;
}

/// The cheapest way of putting the stop into the place's gap; false when there is none that costs less than `below`.
bool Search::price(std::int32_t stop, Place& place, Cost below) {
    Round& round = rounds_[place.round];
    const LinkPath& old = round.hops[place.gap];
    const Cost before = cost_;
    use(old, -1);
    for (std::size_t h = 0; h < round.hops.size(); ++h) {
        if (h != place.gap) ban(round.hops[h]);
    }
    const Cost saved = before - cost_ + saved_on_bridges(stop);
    auto found =
        two_ways(network_.stops[stop], end_before(round, place.gap), end_after(round, place.gap), add(below, saved));
    if (found) {
        place.change = cost_ - before + change_of(found->first, found->second);
        std::reverse(found->first.begin(), found->first.end());
        place.before = std::move(found->first);
        place.after = std::move(found->second);
    }
    for (const LinkPath& hop : round.hops)
        allow(hop);
    use(old, 1);
    return found.has_value();
}

bool Search::price_alone(std::int32_t stop, Place& place) {
    auto found = two_ways(network_.stops[stop], network_.source, network_.source);
    if (!found) return false;
    place.round = -1;
    place.change = figures_.ring_cost + change_of(found->first, found->second);
    std::reverse(found->first.begin(), found->first.end());
    place.before = std::move(found->first);
    place.after = std::move(found->second);
    return true;
}

/// Puts the stop where it costs least among the nearest gaps and a ring of its own; once time is up, into the first
/// gap that will have it.
void Search::put_in(std::int32_t stop) {
    const std::vector<Cost>& distance = ways_.all_from(network_.stops[stop], price_);
    const Cost to_source = distance[network_.source];
    const Cost least_alone = add(figures_.ring_cost, add(to_source, to_source)) - saved_on_bridges(stop);
    std::vector<Place> places = near_gaps(stop, distance);
    std::optional<Place> best;
    for (Place& place : places) {
        if (best && stop_->reached()) break;
        if (!price(stop, place, best ? best->change : kLargestCost)) continue;
        if (!best || place.change < best->change) best = std::move(place);
    }
    if (!best || (best->change > least_alone && !stop_->reached())) {
        Place alone;
        if (price_alone(stop, alone) && (!best || alone.change < best->change)) best = std::move(alone);
    }
    if (best->round < 0) {
        use(best->before, 1);
        use(best->after, 1);
        cost_ += figures_.ring_cost;
        rounds_.push_back({{stop}, {std::move(best->before), std::move(best->after)}, {1, 1}});
        return;
    }
    Round& round = rounds_[best->round];
    use(round.hops[best->gap], -1);
    use(best->before, 1);
    use(best->after, 1);
    const auto gap = static_cast<std::ptrdiff_t>(best->gap);
    round.stops.insert(round.stops.begin() + gap, stop);
    round.hops[best->gap] = std::move(best->after);
    round.hops.insert(round.hops.begin() + gap, std::move(best->before));
    round.fresh[best->gap] = 1;
    round.fresh.insert(round.fresh.begin() + gap, 1);
}

/// Takes stops in a row out of their ring, which may leave it empty; false, with nothing changed, when the stops beside
/// them cannot be joined.
bool Search::take_out(const Row& row) {
    Round& round = rounds_[row.round];
    const std::size_t end = row.first + row.count;
    for (std::size_t h = row.first; h <= end; ++h)
        use(round.hops[h], -1);
    const bool all = row.count == round.stops.size();
    std::optional<LinkPath> joined;
    if (!all) {
        for (std::size_t h = 0; h < round.hops.size(); ++h) {
            if (h < row.first || h > end) ban(round.hops[h]);
        }
        joined = one_way(end_before(round, row.first), end_after(round, end));
        for (const LinkPath& hop : round.hops)
            allow(hop);
        if (!joined) {
            for (std::size_t h = row.first; h <= end; ++h)
                use(round.hops[h], 1);
            return false;
        }
        use(*joined, 1);
    }
    const auto first = static_cast<std::ptrdiff_t>(row.first);
    const auto last = static_cast<std::ptrdiff_t>(end);
    round.stops.erase(round.stops.begin() + first, round.stops.begin() + last);
    round.hops.erase(round.hops.begin() + first, round.hops.begin() + last);
    round.fresh.erase(round.fresh.begin() + first, round.fresh.begin() + last);
    round.fresh[row.first] = 1;
    round.hops[row.first] = joined ? std::move(*joined) : LinkPath();
    if (all) cost_ -= figures_.ring_cost;
    return true;
}

/// The stop farthest from the source, then always the one nearest to any before it.
std::vector<std::int32_t> Search::from_the_farthest() const {
    const auto count = static_cast<std::int32_t>(network_.stops.size());
    std::vector<std::int32_t> order;
    std::vector<Cost> near(network_.stops.size(), kLargestCost);
    std::vector<char> taken(network_.stops.size(), 0);
    while (static_cast<std::int32_t>(order.size()) < count) {
        std::int32_t next = -1;
        for (std::int32_t s = 0; s < count; ++s) {
            if (taken[s]) continue;
            const bool better =
                next < 0 || (order.empty() ? apart(count, s) > apart(count, next) : near[s] < near[next]);
            if (better) next = s;
        }
        taken[next] = 1;
        order.push_back(next);
        for (std::int32_t s = 0; s < count; ++s)
            near[s] = std::min(near[s], apart(next, s));
    }
    return order;
}

void Search::construct() {
    for (const std::int32_t stop : from_the_farthest())
        put_in(stop);
}

void Search::follow(const std::vector<SharedCostEdge>& edges, const std::vector<double>& use) {
    const LinkNetwork cheap = partly_paid(network_, edges, use);
    Search planned(cheap, figures_, *stop_, random_());
    planned.construct();
    planned.improve();
    const Rounds before = rounds_;
    const Cost least = cost_;
    start_from(planned.rounds());
    for (Round& round : rounds_)
        round.fresh.assign(round.hops.size(), 1);
    improve();
    shake(kShakesOfFollower);
    if (cost_ >= least) start_from(before);
}

}  // namespace spadework::graph::rings
