#include "comparison/ground_check.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <vector>

#include <fmt/format.h>

#include "comparison/verification_parts.hpp"
#include "scenario/local_plane.hpp"

namespace spadework::verification {

namespace {

/// Within this of a border, in metres, is on it.
constexpr double on_border = 1e-5;
/// Pieces of a line that are shorter than this, in metres, are not looked at.
constexpr double least_piece = 2e-3;
/// What may be a rounding of positions, in metres.
constexpr double most_rounding = 1e-2;

struct Line {
    Position a;
    Position b;
    [[nodiscard]] double metres() const { return std::hypot(b.x - a.x, b.y - a.y); }
    [[nodiscard]] Position at(double share) const { return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)}; }
};

/// An area on the plane, as sides in no order.
struct Shape {
    int area = 0;
    AreaUse use = AreaUse::open_ground;
    bool bars = true;
    std::vector<Line> sides;
    double square_metres = 0;
};

double metres_to(const Line& side, const Position& at) {
    const double squared = side.metres() * side.metres();
    const double along = (at.x - side.a.x) * (side.b.x - side.a.x) + (at.y - side.a.y) * (side.b.y - side.a.y);
    const Position nearest = side.at(squared > 0 ? std::clamp(along / squared, 0.0, 1.0) : 0);
    return std::hypot(nearest.x - at.x, nearest.y - at.y);
}

double metres_to_border(const Shape& shape, const Position& at) {
    double least = std::numeric_limits<double>::infinity();
    for (const Line& side : shape.sides)
        least = std::min(least, metres_to(side, at));
    return least;
}

/// By how often a ray to the east crosses the sides, holes included.
bool holds(const Shape& shape, const Position& at) {
    bool inside = false;
    for (const Line& side : shape.sides) {
        if ((side.a.y > at.y) == (side.b.y > at.y)) continue;
        const double east = side.a.x + (at.y - side.a.y) / (side.b.y - side.a.y) * (side.b.x - side.a.x);
        inside = inside != (east > at.x);
    }
    return inside;
}

/// Square metres of a ring.
double size_of(const std::vector<Position>& ring) {
    double twice = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Position& a = ring[i];
        const Position& b = ring[(i + 1) % ring.size()];
        twice += (a.x - ring[0].x) * (b.y - ring[0].y) - (b.x - ring[0].x) * (a.y - ring[0].y);
    }
    return std::abs(twice) / 2;
}

std::vector<Shape> shapes_of(const Scenario& scenario, const LocalPlane& plane) {
    std::vector<Shape> shapes;
    for (std::size_t i = 0; i < scenario.areas.size(); ++i) {
        const Area& area = scenario.areas[i];
        Shape shape{static_cast<int>(i), area.use, area.bars_segments, {}, 0};
        for (std::size_t r = 0; r < area.rings.size(); ++r) {
            std::vector<Position> ring;
            for (const Position& at : area.rings[r])
                ring.push_back(plane.to_plane(at));
            for (std::size_t c = 0; c < ring.size(); ++c)
                shape.sides.push_back({ring[c], ring[(c + 1) % ring.size()]});
            shape.square_metres += r == 0 ? size_of(ring) : -size_of(ring);
        }
        shapes.push_back(std::move(shape));
    }
    return shapes;
}

/// Where a line meets a side: the crossing, and ends of the side that lie on the line.
void collect_meetings(const Line& line, const Line& side, std::vector<double>& shares) {
    const double east = line.b.x - line.a.x;
    const double north = line.b.y - line.a.y;
    const double side_east = side.b.x - side.a.x;
    const double side_north = side.b.y - side.a.y;
    const double sine = east * side_north - north * side_east;
    if (std::abs(sine) > 0) {
        const double share = ((side.a.x - line.a.x) * side_north - (side.a.y - line.a.y) * side_east) / sine;
        if (share > 0 && share < 1) shares.push_back(share);
    }
    for (const Position& end : {side.a, side.b}) {
        if (metres_to(line, end) > on_border) continue;
        shares.push_back(((end.x - line.a.x) * east + (end.y - line.a.y) * north) / (east * east + north * north));
    }
}

/// Middles of the pieces into which all borders cut a line.
std::vector<Position> middles(const Line& line, const std::vector<Shape>& shapes) {
    std::vector<double> shares = {0, 1};
    for (const Shape& shape : shapes) {
        for (const Line& side : shape.sides)
            collect_meetings(line, side, shares);
    }
    std::sort(shares.begin(), shares.end());
    std::vector<Position> found;
    for (std::size_t i = 0; i + 1 < shares.size(); ++i) {
        const bool within = shares[i] >= 0 && shares[i + 1] <= 1;
        if (within && (shares[i + 1] - shares[i]) * line.metres() >= least_piece)
            found.push_back(line.at((shares[i] + shares[i + 1]) / 2));
    }
    return found;
}

double depth_that_enters(const Scenario& scenario) {
    return scenario.coordinates == CoordinateSystem::wgs84_degrees ? 0.02 + most_rounding : 0.001 + on_border;
}

/// Walks along one segment.
class GroundWalk {
public:
    GroundWalk(const Scenario& scenario, const Segment& segment)
        : scenario_(scenario),
          segment_(segment),
          plane_(scenario.coordinates, segment.polyline),
          shapes_(shapes_of(scenario, plane_)) {}

    [[nodiscard]] std::vector<Position> all_middles() const {
        std::vector<Position> all;
        for (std::size_t i = 0; i + 1 < segment_.polyline.size(); ++i) {
            const Line line{plane_.to_plane(segment_.polyline[i]), plane_.to_plane(segment_.polyline[i + 1])};
            const std::vector<Position> some = middles(line, shapes_);
            all.insert(all.end(), some.begin(), some.end());
        }
        return all;
    }

    /// What prices a trench at a point: the smallest open ground, to which its border belongs, and all overlays, to
    /// which theirs does not.
    [[nodiscard]] std::set<int> pricing_areas_at(const Position& at) const {
        std::set<int> areas;
        const Shape* smallest = nullptr;
        for (const Shape& shape : shapes_) {
            const bool inside = holds(shape, at);
            if (shape.use == AreaUse::overlay && inside) areas.insert(shape.area);
            if (shape.use != AreaUse::open_ground || !(inside || metres_to_border(shape, at) <= on_border)) continue;
            if (smallest == nullptr || shape.square_metres < smallest->square_metres) smallest = &shape;
        }
        if (smallest != nullptr) areas.insert(smallest->area);
        return areas;
    }

    [[nodiscard]] std::string fault() const {
        const std::set<int> own = obstacles_about_ends();
        for (const Position& at : all_middles()) {
            for (const Shape& shape : shapes_) {
                if (enters(shape, at) && !own.contains(shape.area)) {
                    return fmt::format("Segment {} enters the obstacle {}.", segment_.id, name(shape));
                }
            }
            if (segment_.area && !in_open_ground(at) && !is_step(own)) {
                return fmt::format("Segment {} leaves open ground.", segment_.id);
            }
        }
        return {};
    }

private:
    [[nodiscard]] const std::string& name(const Shape& shape) const { return item(scenario_.areas, shape.area).id; }

    /// A line over open ground is barred by every obstacle, one of the map by those that bar segments.
    [[nodiscard]] bool enters(const Shape& shape, const Position& at) const {
        if (shape.use != AreaUse::obstacle || !(segment_.area || shape.bars)) return false;
        return holds(shape, at) && metres_to_border(shape, at) > depth_that_enters(scenario_);
    }

    [[nodiscard]] bool in_open_ground(const Position& at) const {
        return std::any_of(shapes_.begin(), shapes_.end(), [&](const Shape& shape) {
            return shape.use == AreaUse::open_ground &&
                   (holds(shape, at) || metres_to_border(shape, at) <= most_rounding);
        });
    }

    [[nodiscard]] std::set<int> obstacles_about_ends() const {
        std::set<int> own;
        for (const PlaceIndex end : {segment_.from, segment_.to}) {
            const Place& place = item(scenario_.places, end);
            if (place.kind != PlaceKind::building && place.kind != PlaceKind::hub) continue;
            for (const Shape& shape : shapes_) {
                if (shape.use == AreaUse::obstacle && holds(shape, plane_.to_plane(place.at))) own.insert(shape.area);
            }
        }
        return own;
    }

    /// Steps lead up to open ground: within reach, or out of a building's own walls.
    [[nodiscard]] bool is_step(const std::set<int>& own) const {
        return !own.empty() || segment_.length.metres() <= scenario_.rules.open_ground.reach.metres() + most_rounding;
    }

    const Scenario& scenario_;
    const Segment& segment_;
    LocalPlane plane_;
    std::vector<Shape> shapes_;
};

}  // namespace

std::string ground_fault(const Scenario& scenario, const Segment& segment) {
    if (scenario.areas.empty()) return {};
    return GroundWalk(scenario, segment).fault();
}

bool same_ground(const Scenario& scenario, const Segment& a, const Segment& b) {
    const GroundWalk walk_a(scenario, a);
    const GroundWalk walk_b(scenario, b);
    std::set<std::set<int>> grounds;
    for (const Position& at : walk_a.all_middles())
        grounds.insert(walk_a.pricing_areas_at(at));
    for (const Position& at : walk_b.all_middles())
        grounds.insert(walk_b.pricing_areas_at(at));
    return grounds.size() <= 1;
}

Sentences ground_violations(const Scenario& scenario, const Plan& plan) {
    Sentences found;
    for (const Step& trench : plan.trenches) {
        std::string fault = ground_fault(scenario, item(scenario.segments, trench.segment));
        if (!fault.empty()) found.push_back(std::move(fault));
    }
    return found;
}

}  // namespace spadework::verification
