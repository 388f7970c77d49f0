#include "drawn_map/osm_rings.hpp"

#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "geometry/plane_geometry.hpp"

namespace spadework::drawn_map {

namespace {

/// Joins ways one after the other. Which ways end at a node is looked up; used ones are skipped.
class Joiner {
public:
    explicit Joiner(const std::vector<NodeIds>& ways) : ways_(ways), used_(ways.size()) {
        for (std::size_t way = 0; way < ways.size(); ++way) {
            const NodeIds& nodes = ways[way];
            if (nodes.size() < 2 || nodes.front() == nodes.back()) continue;
            ends_[nodes.front()].ways.push_back(way);
            ends_[nodes.back()].ways.push_back(way);
        }
    }

    JoinedWays join() {
        JoinedWays joined;
        for (std::size_t way = 0; way < ways_.size(); ++way) {
            if (used_[way] || ways_[way].size() < 2) continue;
            used_[way] = true;
            NodeIds chain = ways_[way];
            while (chain.front() != chain.back() && extend(chain)) {
            }
            (chain.front() == chain.back() ? joined.rings : joined.open).push_back(std::move(chain));
        }
        return joined;
    }

private:
    /// Ways that end at a node. Those before `next` are used.
    struct Ends {
        std::vector<std::size_t> ways;
        std::size_t next = 0;
    };

    bool extend(NodeIds& chain) {
        Ends& ends = ends_[chain.back()];
        for (; ends.next < ends.ways.size(); ++ends.next) {
            const std::size_t way = ends.ways[ends.next];
            if (used_[way]) continue;
            const NodeIds& next = ways_[way];
            used_[way] = true;
            if (next.front() == chain.back()) {
                chain.insert(chain.end(), next.begin() + 1, next.end());
            } else {
                chain.insert(chain.end(), next.rbegin() + 1, next.rend());
            }
            return true;
        }
        return false;
    }

    const std::vector<NodeIds>& ways_;
    std::vector<bool> used_;
    std::unordered_map<std::int64_t, Ends> ends_;  ///< Only looked up, never walked.
};

/// Twice the area of a ring, whichever way round it goes.
double doubled_area(const std::vector<Position>& ring) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Position& a = ring[i];
        const Position& b = ring[(i + 1) % ring.size()];
        sum += (a.x - ring[0].x) * (b.y - ring[0].y) - (b.x - ring[0].x) * (a.y - ring[0].y);
    }
    return std::abs(sum);
}

/// A hole may touch its outer ring at some points, so that its first point that is none of the ring's decides.
bool holds(const std::vector<Position>& outer, const std::vector<Position>& inner) {
    const auto point =
        std::ranges::find_if(inner, [&](const Position& at) { return std::ranges::find(outer, at) == outer.end(); });
    return point != inner.end() && ring_holds(outer, *point);
}

}  // namespace

JoinedWays join_ways(const std::vector<NodeIds>& ways) {
    return Joiner(ways).join();
}

std::pair<std::vector<RingWithHoles>, int> assign_holes(std::vector<std::vector<Position>> outer,
                                                        std::vector<std::vector<Position>> inner) {
    std::vector<double> areas;
    std::ranges::transform(outer, std::back_inserter(areas), doubled_area);
    std::pair<std::vector<RingWithHoles>, int> result;
    for (std::vector<Position>& ring : outer)
        result.first.push_back({std::move(ring)});
    for (std::vector<Position>& hole : inner) {
        std::size_t best = areas.size();
        for (std::size_t i = 0; i < areas.size(); ++i) {
            const bool smaller = best == areas.size() || areas[i] < areas[best];
            if (smaller && holds(result.first[i].front(), hole)) best = i;
        }
        if (best == areas.size()) {
            ++result.second;
        } else {
            result.first[best].push_back(std::move(hole));
        }
    }
    return result;
}

}  // namespace spadework::drawn_map
