#include "geometry/plane_geometry.hpp"

#include <algorithm>
#include <cmath>

namespace spadework {

namespace {

double cross(const Position& origin, const Position& a, const Position& b) {
    return (a.x - origin.x) * (b.y - origin.y) - (a.y - origin.y) * (b.x - origin.x);
}

double metres(const Position& a, const Position& b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

Position along(const Stretch& stretch, double share) {
    return {stretch.from.x + share * (stretch.to.x - stretch.from.x),
            stretch.from.y + share * (stretch.to.y - stretch.from.y)};
}

/// Share of the stretch at which it comes nearest to a point.
double nearest_share(const Stretch& stretch, const Position& point) {
    const double dx = stretch.to.x - stretch.from.x;
    const double dy = stretch.to.y - stretch.from.y;
    const double squared = dx * dx + dy * dy;
    if (squared <= 0) return 0;
    const double share = ((point.x - stretch.from.x) * dx + (point.y - stretch.from.y) * dy) / squared;
    return std::clamp(share, 0.0, 1.0);
}

bool cross_each_other(const Stretch& a, const Stretch& b) {
    const double b_from = cross(a.from, a.to, b.from);
    const double b_to = cross(a.from, a.to, b.to);
    const double a_from = cross(b.from, b.to, a.from);
    const double a_to = cross(b.from, b.to, a.to);
    return b_from * b_to < 0 && a_from * a_to < 0;
}

}  // namespace

Nearest nearest_points(const Stretch& first, const Stretch& second) {
    if (cross_each_other(first, second)) {
        const double from = cross(second.from, second.to, first.from);
        const double to = cross(second.from, second.to, first.to);
        const double share = from / (from - to);
        const Position at = along(first, share);
        return {0, share, at, at};
    }
    Nearest best{metres(first.from, second.from), 0, first.from, second.from};
    const auto consider = [&best](double share, const Position& on_first, const Position& on_second) {
        const double distance = metres(on_first, on_second);
        if (distance < best.metres) best = {distance, share, on_first, on_second};
    };
    for (const Position& end : {second.from, second.to}) {
        const double share = nearest_share(first, end);
        consider(share, along(first, share), end);
    }
    consider(0, first.from, along(second, nearest_share(second, first.from)));
    consider(1, first.to, along(second, nearest_share(second, first.to)));
    return best;
}

bool ring_holds(const std::vector<Position>& ring, const Position& point) {
    bool inside = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const bool straddles = (ring[i].y > point.y) != (ring[j].y > point.y);
        if (!straddles) continue;
        const double x = ring[i].x + (point.y - ring[i].y) / (ring[j].y - ring[i].y) * (ring[j].x - ring[i].x);
        if (point.x < x) inside = !inside;
    }
    return inside;
}

std::vector<Stretch> sides_of(const std::vector<std::vector<Position>>& rings) {
    std::vector<Stretch> sides;
    for (const auto& ring : rings) {
        for (std::size_t i = 0; i < ring.size(); ++i)
            sides.push_back({ring[i], ring[(i + 1) % ring.size()]});
    }
    return sides;
}

}  // namespace spadework
