#include "geometry/ring_checks.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/box_tree.hpp"

namespace spadework {

namespace {

/// Nearer than this, in metres, is the same point: far below what a survey measures, far above rounding.
constexpr double same_metres = 1e-6;

double turn(const Position& origin, const Position& a, const Position& b) {
    return (a.x - origin.x) * (b.y - origin.y) - (a.y - origin.y) * (b.x - origin.x);
}

double metres_to(const Stretch& side, const Position& point) {
    return nearest_points(side, {point, point}).metres;
}

/// Whether a side leads back over the one before it.
bool folds_back(const Stretch& side, const Stretch& next) {
    const double ahead =
        (side.to.x - side.from.x) * (next.to.x - next.from.x) + (side.to.y - side.from.y) * (next.to.y - next.from.y);
    return ahead < 0 && std::min(metres_to(side, next.to), metres_to(next, side.from)) < same_metres;
}

bool cross_each_other(const Stretch& a, const Stretch& b) {
    return turn(a.from, a.to, b.from) * turn(a.from, a.to, b.to) < 0 &&
           turn(b.from, b.to, a.from) * turn(b.from, b.to, a.to) < 0;
}

bool any_crossing(const std::vector<Position>& a, const std::vector<Position>& b) {
    const std::vector<Stretch> sides = sides_of({a});
    const BoxTree tree(sides);
    for (const Stretch& side : sides_of({b})) {
        bool crossed = false;
        tree.visit_near(box_around(side), [&](std::int32_t other) {
            if (other >= 0) crossed = crossed || cross_each_other(side, sides[static_cast<std::size_t>(other)]);
            return 0.0;
        });
        if (crossed) return true;
    }
    return false;
}

/// A corner of the ring that is not on the other's border tells which side of it the ring is on.
bool some_corner_inside(const std::vector<Position>& ring, const std::vector<Position>& other) {
    const std::vector<Stretch> sides = sides_of({other});
    for (const Position& corner : ring) {
        double metres = 1;
        for (const Stretch& side : sides)
            metres = std::min(metres, metres_to(side, corner));
        if (metres > same_metres) return ring_holds(other, corner);
    }
    return true;
}

}  // namespace

std::optional<RingFault> fault_of_ring(const std::vector<Position>& ring) {
    const std::vector<Stretch> sides = sides_of({ring});
    const BoxTree tree(sides);
    std::optional<RingFault> fault;
    for (std::size_t i = 0; i < sides.size() && !fault; ++i) {
        const std::size_t next = (i + 1) % sides.size();
        if (folds_back(sides[i], sides[next])) return RingFault{i, next, sides[i].to};
        tree.visit_near(box_around(sides[i]), [&](std::int32_t number) {
            const auto j = static_cast<std::size_t>(number);
            const bool neighbours = number < 0 || j <= i + 1 || (i == 0 && j + 1 == sides.size());
            if (neighbours || (fault && fault->second < j)) return same_metres;
            const Nearest nearest = nearest_points(sides[i], sides[j]);
            if (nearest.metres < same_metres) fault = RingFault{i, j, nearest.on_first};
            return same_metres;
        });
    }
    return fault;
}

bool ring_within(const std::vector<Position>& inner, const std::vector<Position>& outer) {
    return !any_crossing(outer, inner) && some_corner_inside(inner, outer);
}

bool rings_apart(const std::vector<Position>& a, const std::vector<Position>& b) {
    return !any_crossing(a, b) && !some_corner_inside(a, b) && !some_corner_inside(b, a);
}

}  // namespace spadework
