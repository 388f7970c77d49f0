#include "open_ground/ground_map.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <tuple>
#include <utility>

namespace spadework::open_ground {

namespace {

std::vector<Position> all_corners(const std::vector<Area>& areas) {
    std::vector<Position> corners;
    for (const Area& area : areas) {
        for (const auto& ring : area.rings)
            corners.insert(corners.end(), ring.begin(), ring.end());
    }
    return corners;
}

std::vector<std::vector<std::vector<Position>>> rings_on_plane(const std::vector<Area>& areas,
                                                               const LocalPlane& plane) {
    std::vector<std::vector<std::vector<Position>>> all;
    for (const Area& area : areas) {
        auto& rings = all.emplace_back(area.rings);
        for (auto& ring : rings)
            std::transform(ring.begin(), ring.end(), ring.begin(),
                           [&plane](const Position& at) { return plane.to_plane(at); });
    }
    return all;
}

Box box_of(const std::vector<Position>& ring) {
    Box box{ring.front().x, ring.front().y, ring.front().x, ring.front().y};
    for (const Position& at : ring)
        box = box_around(box, {at.x, at.y, at.x, at.y});
    return box;
}

/// By the shoelace formula.
double size_of(const std::vector<Position>& ring) {
    double twice = 0;
    const Position& origin = ring.front();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Position& a = ring[i];
        const Position& b = ring[(i + 1) % ring.size()];
        twice += (a.x - origin.x) * (b.y - origin.y) - (b.x - origin.x) * (a.y - origin.y);
    }
    return std::abs(twice) / 2;
}

/// A stretch whose box is the box.
Stretch diagonal_of(const Box& box) {
    return {{box.left, box.low}, {box.right, box.high}};
}

std::vector<Stretch> diagonals_of(const std::vector<Box>& boxes) {
    std::vector<Stretch> diagonals;
    std::transform(boxes.begin(), boxes.end(), std::back_inserter(diagonals), diagonal_of);
    return diagonals;
}

std::vector<Box> boxes_of(const std::vector<std::vector<std::vector<Position>>>& all) {
    std::vector<Box> boxes;
    for (const auto& rings : all)
        boxes.push_back(box_of(rings.front()));
    return boxes;
}

std::vector<double> sizes_of(const std::vector<std::vector<std::vector<Position>>>& all) {
    std::vector<double> sizes;
    for (const auto& rings : all) {
        double size = size_of(rings.front());
        for (std::size_t hole = 1; hole < rings.size(); ++hole)
            size -= size_of(rings[hole]);
        sizes.push_back(size);
    }
    return sizes;
}

std::vector<Stretch> all_sides(const std::vector<std::vector<std::vector<Position>>>& all) {
    std::vector<Stretch> sides;
    for (const auto& rings : all) {
        const std::vector<Stretch> some = sides_of(rings);
        sides.insert(sides.end(), some.begin(), some.end());
    }
    return sides;
}

Position along(const Stretch& line, double share) {
    return {line.from.x + share * (line.to.x - line.from.x), line.from.y + share * (line.to.y - line.from.y)};
}

double metres_of(const Stretch& line) {
    return std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
}

bool contains(const std::vector<int>& list, int item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

}  // namespace

GroundMap::GroundMap(const Scenario& scenario)
    : areas_(scenario.areas),
      entered_metres_(entered_metres(scenario.coordinates)),
      plane_(scenario.coordinates, all_corners(scenario.areas)),
      rings_(rings_on_plane(scenario.areas, plane_)),
      boxes_(boxes_of(rings_)),
      sizes_(sizes_of(rings_)),
      sides_(all_sides(rings_)),
      side_tree_(sides_),
      area_tree_(diagonals_of(boxes_)) {
    for (std::size_t area = 0; area < rings_.size(); ++area) {
        for (const auto& ring : rings_[area])
            area_of_side_.insert(area_of_side_.end(), ring.size(), static_cast<int>(area));
    }
}

bool GroundMap::holds(int area, const Position& at) const {
    const auto& all = rings(area);
    if (!ring_holds(all.front(), at)) return false;
    return std::none_of(all.begin() + 1, all.end(), [&at](const auto& hole) { return ring_holds(hole, at); });
}

double GroundMap::metres_to_border(int area, const Position& at) const {
    double least = std::numeric_limits<double>::infinity();
    for (const auto& ring : rings(area)) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Stretch side{ring[i], ring[(i + 1) % ring.size()]};
            least = std::min(least, nearest_points(side, {at, at}).metres);
        }
    }
    return least;
}

Zone GroundMap::zone_at(const Position& at) const {
    return zone_at(at, {});
}

Zone GroundMap::zone_at(const Position& at, const std::vector<int>& passed) const {
    Zone zone;
    area_tree_.visit_near({at.x, at.y, at.x, at.y}, [&](std::int32_t area) {
        if (area < 0) return on_border_metres;
        const bool inside = holds(area, at);
        switch (areas_[static_cast<std::size_t>(area)].use) {
            case AreaUse::open_ground:
                if (inside || metres_to_border(area, at) <= on_border_metres) {
                    const bool smaller = zone.open < 0 || std::pair(square_metres(area), area) <
                                                              std::pair(square_metres(zone.open), zone.open);
                    if (smaller) zone.open = area;
                }
                break;
            case AreaUse::overlay:
                if (inside) zone.overlays.push_back(area);
                break;
            case AreaUse::obstacle:
                if (inside && !contains(passed, area) && metres_to_border(area, at) > entered_metres_) {
                    zone.obstacle = zone.obstacle < 0 ? area : std::min(zone.obstacle, area);
                }
                break;
        }
        return on_border_metres;
    });
    std::sort(zone.overlays.begin(), zone.overlays.end());
    return zone;
}

std::vector<double> GroundMap::cuts_of(const Stretch& line) const {
    std::vector<double> cuts = {0, 1};
    side_tree_.visit_near(box_around(line), [&](std::int32_t number) {
        if (number < 0) return on_border_metres;
        const Stretch& side = sides_[static_cast<std::size_t>(number)];
        const Nearest nearest = nearest_points(line, side);
        if (nearest.metres > on_border_metres) return on_border_metres;
        cuts.push_back(nearest.share);
        for (const Position& end : {side.from, side.to}) {
            const Nearest to_end = nearest_points(line, {end, end});
            if (to_end.metres <= on_border_metres) cuts.push_back(to_end.share);
        }
        return on_border_metres;
    });
    std::sort(cuts.begin(), cuts.end());
    return cuts;
}

/// The zone at the middle of a piece that crosses no border. It is inside an obstacle also when there is one close by
/// on either side of it.
Zone GroundMap::zone_of_piece(const Stretch& piece, const std::vector<int>& passed) const {
    const Position middle = along(piece, 0.5);
    Zone zone = zone_at(middle, passed);
    if (zone.obstacle >= 0) return zone;
    const double length = metres_of(piece);
    const double aside = 1.5 * entered_metres_ / length;
    const Position left{middle.x - aside * (piece.to.y - piece.from.y), middle.y + aside * (piece.to.x - piece.from.x)};
    const Position right{2 * middle.x - left.x, 2 * middle.y - left.y};
    const int on_left = zone_at(left, passed).obstacle;
    if (on_left >= 0 && zone_at(right, passed).obstacle >= 0) zone.obstacle = on_left;
    return zone;
}

std::vector<Run> GroundMap::runs_of(const Stretch& line, const std::vector<int>& passed) const {
    std::vector<Run> runs;
    const double metres = metres_of(line);
    double begun = 0;
    for (const double cut : cuts_of(line)) {
        if ((cut - begun) * metres < least_piece_metres) continue;
        const Stretch piece{along(line, begun), along(line, cut)};
        Zone zone = zone_of_piece(piece, passed);
        if (!runs.empty() && runs.back().zone == zone) {
            runs.back().to = piece.to;
        } else {
            runs.push_back({piece.from, piece.to, std::move(zone)});
        }
        begun = cut;
    }
    if (!runs.empty()) {
        runs.front().from = line.from;
        runs.back().to = line.to;
    }
    return runs;
}

std::vector<BorderPoint> GroundMap::open_ground_near(const Position& at, double reach) const {
    std::vector<BorderPoint> found;
    side_tree_.visit_near({at.x, at.y, at.x, at.y}, [&](std::int32_t number) {
        if (number < 0) return reach;
        const int area = area_of_side_[static_cast<std::size_t>(number)];
        if (areas_[static_cast<std::size_t>(area)].use != AreaUse::open_ground) return reach;
        const Nearest nearest = nearest_points(sides_[static_cast<std::size_t>(number)], {at, at});
        if (nearest.metres <= reach) found.push_back({area, nearest.on_first, nearest.metres});
        return reach;
    });
    std::sort(found.begin(), found.end(), [](const BorderPoint& a, const BorderPoint& b) {
        return std::tuple(a.area, a.metres, a.at.x, a.at.y) < std::tuple(b.area, b.metres, b.at.x, b.at.y);
    });
    const auto same_area = [](const BorderPoint& a, const BorderPoint& b) { return a.area == b.area; };
    found.erase(std::unique(found.begin(), found.end(), same_area), found.end());
    std::stable_sort(found.begin(), found.end(),
                     [](const BorderPoint& a, const BorderPoint& b) { return a.metres < b.metres; });
    return found;
}

}  // namespace spadework::open_ground
