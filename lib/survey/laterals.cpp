#include "survey/laterals.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <tuple>

namespace spadework::survey {

namespace {

constexpr double in_wall_metres = 0.5;
/// A line that ends at a wall, or runs along it, does not cut it.
constexpr double beside_wall_metres = 0.05;

std::size_t as_index(int number) {
    return static_cast<std::size_t>(number);
}

/// The stretch without its last centimetres at either end, so that walls it merely touches do not count.
Stretch shortened(const Stretch& line) {
    const double whole = std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
    if (whole <= 4 * beside_wall_metres) return {line.from, line.from};
    const double share = beside_wall_metres / whole;
    const double dx = (line.to.x - line.from.x) * share;
    const double dy = (line.to.y - line.from.y) * share;
    return {{line.from.x + dx, line.from.y + dy}, {line.to.x - dx, line.to.y - dy}};
}

bool cross(const Stretch& a, const Stretch& b) {
    return nearest_points(a, b).metres <= 0;
}

}  // namespace

Walls::Walls(const MapContents& contents, const LocalPlane& plane)
    : contents_(contents), plane_(plane), entrances_(contents.buildings.size()) {
    std::vector<Stretch> sides;
    for (std::size_t building = 0; building < contents.buildings.size(); ++building) {
        for (const Stretch& side : of(building)) {
            sides.push_back(side);
            owner_.push_back(building);
        }
    }
    search_.emplace(std::move(sides));
    for (const Position& entrance : contents.entrances) {
        const Position point = plane.to_plane(entrance);
        const auto is_outline = [&](std::size_t side) { return !contents.buildings[owner_[side]].from_point; };
        const auto wall = search_->nearest({{point, point}}, is_outline);
        if (wall && wall->nearest.metres <= in_wall_metres) entrances_[owner_[wall->stretch]].push_back(entrance);
    }
}

std::vector<Stretch> Walls::of(std::size_t building) const {
    std::vector<Stretch> sides = sides_of({contents_.buildings[building].rings.front()});
    for (Stretch& side : sides)
        side = {plane_.to_plane(side.from), plane_.to_plane(side.to)};
    return sides;
}

std::optional<std::size_t> Walls::in_the_way(const Position& from, const Position& to,
                                             std::optional<std::size_t> own) const {
    const Stretch line = shortened({plane_.to_plane(from), plane_.to_plane(to)});
    std::optional<std::size_t> first;
    search_->tree().visit_near(box_around(line), [&](std::int32_t number) {
        if (number < 0) return 0.0;
        const std::size_t building = owner_[as_index(number)];
        const bool counts = building != own && !contents_.buildings[building].from_point;
        if (counts && (!first || building < *first) && cross(search_->stretches()[as_index(number)], line))
            first = building;
        return 0.0;
    });
    return first;
}

bool Walls::cuts_itself(const Position& from, const Position& entrance, std::size_t building) const {
    const Stretch line = shortened({plane_.to_plane(from), plane_.to_plane(entrance)});
    for (const Stretch& side : of(building)) {
        if (cross(side, line)) return true;
    }
    return false;
}

LateralSearch::LateralSearch(const LineNetwork& network, const std::vector<Way>& ways,
                             const std::vector<int>& part_of_chain, const LocalPlane& plane)
    : plane_(plane) {
    std::vector<Stretch> stretches;
    for (const Edge& edge : edges_of(network)) {
        const int part = part_of_chain[as_index(edge.chain)];
        const Way& way = ways[as_index(network.chains[as_index(edge.chain)].way)];
        if (part < 0 || !is_at_ground(way.level)) continue;
        edges_.push_back(edge);
        parts_.push_back(part);
        stretches.push_back(network.on_plane(edge, plane));
    }
    search_.emplace(std::move(stretches));
}

std::vector<std::pair<int, double>> LateralSearch::parts_near(const std::vector<Stretch>& sides,
                                                              double most_metres) const {
    std::map<int, double> least;
    if (edges_.empty()) return {};
    search_->tree().visit_near(box_around(sides), [&](std::int32_t number) {
        if (number < 0) return most_metres;
        std::optional<NearestStretch> nearest;
        improve_nearest(nearest, as_index(number), search_->stretches()[as_index(number)], sides);
        if (nearest && nearest->nearest.metres <= most_metres) {
            const auto [part, is_new] = least.try_emplace(parts_[as_index(number)], nearest->nearest.metres);
            part->second = std::min(part->second, nearest->nearest.metres);
        }
        return most_metres;
    });
    return {least.begin(), least.end()};
}

std::optional<Lateral> LateralSearch::to_sides(const std::vector<Stretch>& sides, int part) const {
    const auto found = search_->nearest(sides, [&](std::size_t edge) { return parts_[edge] == part; });
    if (!found) return std::nullopt;
    Lateral lateral;
    lateral.entrance = plane_.from_plane(found->nearest.on_second);
    lateral.edge = edges_[found->stretch];
    lateral.share = found->nearest.share;
    lateral.foot = plane_.from_plane(found->nearest.on_first);
    lateral.metres = found->nearest.metres;
    return lateral;
}

std::optional<Lateral> LateralSearch::to_building(std::size_t building, const Walls& walls, int part,
                                                  double most_metres) const {
    std::optional<Lateral> best;
    bool best_cuts = true;
    for (const Position& entrance : walls.entrances_of(building)) {
        auto lateral = to_point(entrance, part);
        if (!lateral || lateral->metres > most_metres) continue;
        const bool cuts = walls.cuts_itself(lateral->foot, entrance, building);
        if (best && std::tie(best_cuts, best->metres) <= std::tie(cuts, lateral->metres)) continue;
        best = lateral;
        best_cuts = cuts;
    }
    if (best) {
        best->to_entrance = true;
    } else {
        best = to_sides(walls.of(building), part);
    }
    if (best) best->building = building;
    return best;
}

std::optional<Lateral> LateralSearch::to_point(const Position& at, int part) const {
    const Position point = plane_.to_plane(at);
    auto lateral = to_sides({{point, point}}, part);
    if (lateral) lateral->entrance = at;
    return lateral;
}

double LateralSearch::metres_to_any(const Position& at) const {
    const Position point = plane_.to_plane(at);
    const auto found = search_->nearest({{point, point}});
    return found ? found->nearest.metres : std::numeric_limits<double>::infinity();
}

}  // namespace spadework::survey
