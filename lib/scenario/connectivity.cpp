#include "scenario/connectivity.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <tuple>

#include "scenario/local_plane.hpp"

namespace spadework {

namespace {

/// Disjoint sets of places, joined by size with path halving.
class PlaceSets {
public:
    explicit PlaceSets(std::size_t count) : parent_(count), size_(count, 1) {
        std::iota(parent_.begin(), parent_.end(), std::size_t{0});
    }

    std::size_t find(std::size_t place) {
        while (parent_[place] != place) {
            parent_[place] = parent_[parent_[place]];
            place = parent_[place];
        }
        return place;
    }

    void join(std::size_t a, std::size_t b) {
        a = find(a);
        b = find(b);
        if (a == b) return;
        if (size_[a] < size_[b]) std::swap(a, b);
        parent_[b] = a;
        size_[a] += size_[b];
    }

private:
    std::vector<std::size_t> parent_;
    std::vector<std::size_t> size_;
};

std::size_t as_index(std::int32_t number) {
    return static_cast<std::size_t>(number);
}

/// Nearest pair of places between one part and the hub's, whose places are sorted by x.
class NearestPair {
public:
    NearestPair(const std::vector<Position>& at, std::vector<PlaceIndex> hub_side)
        : at_(at), hub_side_(std::move(hub_side)) {
        std::sort(hub_side_.begin(), hub_side_.end(), [this](PlaceIndex a, PlaceIndex b) {
            return std::make_tuple(position(a).x, a) < std::make_tuple(position(b).x, b);
        });
    }

    void search(const std::vector<PlaceIndex>& part, CutOffBuilding& cut) const {
        Best best{std::numeric_limits<double>::infinity(), 0, 0};
        for (const PlaceIndex place : part) {
            const auto from = std::lower_bound(hub_side_.begin(), hub_side_.end(), position(place).x,
                                               [this](PlaceIndex a, double x) { return position(a).x < x; });
            for (auto it = from; it != hub_side_.end() && consider(place, *it, best); ++it) {
            }
            for (auto it = from; it != hub_side_.begin() && consider(place, *(it - 1), best); --it) {
            }
        }
        std::tie(cut.metres_from_rest, cut.near_end, cut.far_end) = best;
    }

private:
    using Best = std::tuple<double, PlaceIndex, PlaceIndex>;

    [[nodiscard]] const Position& position(PlaceIndex place) const { return at_[as_index(place)]; }

    /// Whether places farther along x may still be nearer.
    bool consider(PlaceIndex near_end, PlaceIndex far_end, Best& best) const {
        const double dx = position(near_end).x - position(far_end).x;
        if (std::abs(dx) > std::get<0>(best)) return false;
        const double metres = std::hypot(dx, position(near_end).y - position(far_end).y);
        best = std::min(best, Best{metres, near_end, far_end});
        return true;
    }

    const std::vector<Position>& at_;
    std::vector<PlaceIndex> hub_side_;
};

std::vector<Position> plane_positions(const Scenario& scenario) {
    std::vector<Position> at;
    at.reserve(scenario.places.size());
    for (const Place& place : scenario.places)
        at.push_back(place.at);
    const LocalPlane plane(scenario.coordinates, at);
    for (Position& position : at)
        position = plane.to_plane(position);
    return at;
}

std::map<int, SegmentIndex> banned_joints(const Scenario& scenario, const MapParts& parts, int hub_part) {
    std::map<int, SegmentIndex> joints;
    for (std::size_t i = 0; i < scenario.segments.size(); ++i) {
        const Segment& segment = scenario.segments[i];
        if (segment.ban.empty()) continue;
        const int from = parts.part_of_place[as_index(segment.from)];
        const int to = parts.part_of_place[as_index(segment.to)];
        if ((from == hub_part) == (to == hub_part)) continue;
        joints.try_emplace(from == hub_part ? to : from, static_cast<SegmentIndex>(i));
    }
    return joints;
}

}  // namespace

MapParts map_parts(const Scenario& scenario) {
    PlaceSets sets(scenario.places.size());
    for (const Segment& segment : scenario.segments) {
        if (segment.ban.empty()) sets.join(as_index(segment.from), as_index(segment.to));
    }
    MapParts parts;
    std::vector<int> part_of_set(scenario.places.size(), -1);
    for (std::size_t place = 0; place < scenario.places.size(); ++place) {
        int& part = part_of_set[sets.find(place)];
        if (part < 0) part = parts.count++;
        parts.part_of_place.push_back(part);
    }
    return parts;
}

std::vector<CutOffBuilding> cut_off_buildings(const Scenario& scenario) {
    const MapParts parts = map_parts(scenario);
    const int hub_part = parts.part_of_place[as_index(scenario.hub.place)];
    std::vector<std::vector<PlaceIndex>> members(static_cast<std::size_t>(parts.count));
    for (std::size_t place = 0; place < scenario.places.size(); ++place)
        members[as_index(parts.part_of_place[place])].push_back(static_cast<PlaceIndex>(place));
    const std::vector<Position> at = plane_positions(scenario);
    const NearestPair nearest(at, members[as_index(hub_part)]);
    const std::map<int, SegmentIndex> banned = banned_joints(scenario, parts, hub_part);
    std::map<int, CutOffBuilding> found_for_part;
    std::vector<CutOffBuilding> cut_off;
    for (std::size_t i = 0; i < scenario.buildings.size(); ++i) {
        const int part = parts.part_of_place[as_index(scenario.buildings[i].place)];
        if (part == hub_part) continue;
        const auto [entry, is_new] = found_for_part.try_emplace(part);
        CutOffBuilding& cut = entry->second;
        if (is_new) {
            cut.part = part;
            cut.places_in_part = static_cast<int>(members[as_index(part)].size());
            nearest.search(members[as_index(part)], cut);
            const auto joint = banned.find(part);
            if (joint != banned.end()) cut.banned_between = joint->second;
        }
        cut.building = static_cast<BuildingIndex>(i);
        cut_off.push_back(cut);
    }
    return cut_off;
}

}  // namespace spadework
