#include "failures/second_way.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>
#include <set>
#include <tuple>

#include "rates/opening_rates.hpp"
#include "scenario/local_plane.hpp"

namespace spadework {

namespace {

constexpr std::int64_t never = std::numeric_limits<std::int64_t>::max();

/// The map with what joining the two sides would cost: nothing on segments open already.
class Joining {
public:
    Joining(const Scenario& scenario, const Plan& plan, SegmentIndex cut)
        : scenario_(scenario), opening_(scenario.segments.size(), never), segments_at_(scenario.places.size()) {
        std::set<SegmentIndex> open;
        for (const Step& step : plan.trenches)
            open.insert(step.segment);
        for (std::size_t s = 0; s < scenario.segments.size(); ++s) {
            const auto segment = static_cast<SegmentIndex>(s);
            if (segment == cut) continue;
            opening_[s] = open.contains(segment) ? 0 : cheapest_opening(segment);
            segments_at_[static_cast<std::size_t>(scenario.segments[s].from)].push_back(segment);
            segments_at_[static_cast<std::size_t>(scenario.segments[s].to)].push_back(segment);
        }
    }

    /// Places reached from one place over open trenches alone.
    [[nodiscard]] std::vector<bool> side_of(PlaceIndex start) const {
        std::vector<bool> reached(scenario_.places.size(), false);
        std::vector<PlaceIndex> waiting = {start};
        reached[static_cast<std::size_t>(start)] = true;
        while (!waiting.empty()) {
            const PlaceIndex at = waiting.back();
            waiting.pop_back();
            for (const SegmentIndex s : segments_at_[static_cast<std::size_t>(at)]) {
                if (opening_[static_cast<std::size_t>(s)] != 0) continue;
                const PlaceIndex next = other_end(s, at);
                if (reached[static_cast<std::size_t>(next)]) continue;
                reached[static_cast<std::size_t>(next)] = true;
                waiting.push_back(next);
            }
        }
        return reached;
    }

    /// Segments of the cheapest way from the first side to the second (Dijkstra's algorithm from all of the first).
    [[nodiscard]] std::vector<SegmentIndex> cheapest(const std::vector<bool>& from, const std::vector<bool>& to) const {
        std::vector<std::int64_t> cost(scenario_.places.size(), never);
        std::vector<SegmentIndex> entered(scenario_.places.size(), -1);
        using Entry = std::tuple<std::int64_t, PlaceIndex>;
        std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
        for (std::size_t p = 0; p < from.size(); ++p) {
            if (!from[p]) continue;
            cost[p] = 0;
            queue.emplace(0, static_cast<PlaceIndex>(p));
        }
        while (!queue.empty()) {
            const auto [so_far, at] = queue.top();
            queue.pop();
            if (so_far > cost[static_cast<std::size_t>(at)]) continue;
            if (to[static_cast<std::size_t>(at)]) return walk_back(at, from, entered);
            for (const SegmentIndex s : segments_at_[static_cast<std::size_t>(at)])
                relax(s, at, cost, entered, queue);
        }
        return {};
    }

    [[nodiscard]] std::int64_t opening(SegmentIndex segment) const {
        return opening_[static_cast<std::size_t>(segment)];
    }

private:
    [[nodiscard]] std::int64_t cheapest_opening(SegmentIndex segment) const {
        std::int64_t cheapest = never;
        for (const Way& way : ways_of(scenario_, segment))
            cheapest = std::min(cheapest, way.opening.minor());
        // Free to open is still not open: it costs the least there is, so that open trenches come first.
        return cheapest == 0 ? 1 : cheapest;
    }

    [[nodiscard]] PlaceIndex other_end(SegmentIndex segment, PlaceIndex at) const {
        const Segment& ends = scenario_.segments[static_cast<std::size_t>(segment)];
        return ends.from == at ? ends.to : ends.from;
    }

    template <typename Queue>
    void relax(SegmentIndex segment, PlaceIndex at, std::vector<std::int64_t>& cost, std::vector<SegmentIndex>& entered,
               Queue& queue) const {
        const std::int64_t opening = opening_[static_cast<std::size_t>(segment)];
        if (opening == never) return;
        const auto next = static_cast<std::size_t>(other_end(segment, at));
        const std::int64_t reached = cost[static_cast<std::size_t>(at)] + opening;
        if (reached >= cost[next]) return;
        cost[next] = reached;
        entered[next] = segment;
        queue.emplace(reached, static_cast<PlaceIndex>(next));
    }

    [[nodiscard]] std::vector<SegmentIndex> walk_back(PlaceIndex at, const std::vector<bool>& from,
                                                      const std::vector<SegmentIndex>& entered) const {
        std::vector<SegmentIndex> way;
        while (!from[static_cast<std::size_t>(at)]) {
            const SegmentIndex segment = entered[static_cast<std::size_t>(at)];
            if (opening_[static_cast<std::size_t>(segment)] > 0) way.push_back(segment);
            at = other_end(segment, at);
        }
        std::ranges::reverse(way);
        return way;
    }

    const Scenario& scenario_;
    std::vector<std::int64_t> opening_;
    std::vector<std::vector<SegmentIndex>> segments_at_;
};

/// The two places nearest to each other, one on either side.
void nearest_pair(const Scenario& scenario, const std::vector<bool>& one, const std::vector<bool>& other,
                  SecondWay& way) {
    std::vector<Position> positions;
    for (const Place& place : scenario.places)
        positions.push_back(place.at);
    const LocalPlane plane(scenario.coordinates, positions);
    for (Position& position : positions)
        position = plane.to_plane(position);
    way.metres_apart = std::numeric_limits<double>::infinity();
    for (std::size_t a = 0; a < one.size(); ++a) {
        for (std::size_t b = 0; one[a] && b < other.size(); ++b) {
            if (!other[b]) continue;
            const double metres = std::hypot(positions[a].x - positions[b].x, positions[a].y - positions[b].y);
            if (metres >= way.metres_apart) continue;
            way.metres_apart = metres;
            way.from = static_cast<PlaceIndex>(a);
            way.to = static_cast<PlaceIndex>(b);
        }
    }
}

}  // namespace

SecondWay second_way(const Scenario& scenario, const Plan& plan, SegmentIndex cut) {
    const Joining joining(scenario, plan, cut);
    const Segment& segment = scenario.segments[static_cast<std::size_t>(cut)];
    const std::vector<bool> hub_side = joining.side_of(scenario.hub.place);
    const PlaceIndex beyond = hub_side[static_cast<std::size_t>(segment.from)] ? segment.to : segment.from;
    const std::vector<bool> far_side = joining.side_of(beyond);
    SecondWay way;
    way.around = cut;
    way.segments = joining.cheapest(far_side, hub_side);
    for (const SegmentIndex s : way.segments) {
        way.length += scenario.segments[static_cast<std::size_t>(s)].length;
        way.opening += Money::from_minor(joining.opening(s));
    }
    if (way.segments.empty()) nearest_pair(scenario, far_side, hub_side, way);
    return way;
}

}  // namespace spadework
