#include "drawing/label_candidates.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace spadework::drawing {

namespace {

constexpr double gap = 3;

/// Turns to the left from a over b to c: above 0.
double turn(const Point& a, const Point& b, const Point& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool apart(const std::pair<Point, Point>& a, const std::pair<Point, Point>& b) {
    return std::max(a.first.x, a.second.x) < std::min(b.first.x, b.second.x) ||
           std::max(b.first.x, b.second.x) < std::min(a.first.x, a.second.x) ||
           std::max(a.first.y, a.second.y) < std::min(b.first.y, b.second.y) ||
           std::max(b.first.y, b.second.y) < std::min(a.first.y, a.second.y);
}

Rectangle box_at(double left, double top, double width, double height) {
    return {left, top, left + width, top + height};
}

/// From the edge of the symbol to the nearest point of the box.
std::pair<Point, Point> leader_to(const Point& at, double reach, const Rectangle& box) {
    const Point end{std::clamp(at.x, box.left, box.right), std::clamp(at.y, box.top, box.bottom)};
    const double length = std::hypot(end.x - at.x, end.y - at.y);
    const double share = length > 0 ? std::min(1.0, (reach + 1) / length) : 0;
    return {{at.x + share * (end.x - at.x), at.y + share * (end.y - at.y)}, end};
}

}  // namespace

bool overlap(const Rectangle& a, const Rectangle& b) {
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

bool holds(const Rectangle& outer, const Rectangle& inner) {
    return outer.left <= inner.left && inner.right <= outer.right && outer.top <= inner.top &&
           inner.bottom <= outer.bottom;
}

bool cross(const std::pair<Point, Point>& a, const std::pair<Point, Point>& b) {
    if (apart(a, b)) return false;
    const double first = turn(a.first, a.second, b.first) * turn(a.first, a.second, b.second);
    const double second = turn(b.first, b.second, a.first) * turn(b.first, b.second, a.second);
    return first <= 0 && second <= 0;
}

bool touches(const std::pair<Point, Point>& line, const Rectangle& r) {
    return !clipped_line({line.first, line.second}, r).empty();
}

std::vector<LabelCandidate> beside(const Point& at, double reach, double width, double height) {
    const double off = reach + gap;
    const double diagonal = reach + 1;
    std::vector<LabelCandidate> result;
    const auto add = [&](double left, double top) {
        result.push_back({box_at(left, top, width, height), 0.2 * static_cast<double>(result.size()), std::nullopt});
    };
    add(at.x + off, at.y - height / 2);
    add(at.x - off - width, at.y - height / 2);
    add(at.x - width / 2, at.y - off - height);
    add(at.x - width / 2, at.y + off);
    add(at.x + diagonal, at.y - diagonal - height);
    add(at.x + diagonal, at.y + diagonal);
    add(at.x - diagonal - width, at.y - diagonal - height);
    add(at.x - diagonal - width, at.y + diagonal);
    return result;
}

std::vector<LabelCandidate> at_a_distance(const Point& at, double reach, double width, double height, double farthest) {
    constexpr int directions = 16;
    std::vector<LabelCandidate> result;
    for (double distance = 12; distance <= farthest; distance += std::max(9.0, distance / 4)) {
        for (int d = 0; d < directions; ++d) {
            const double angle = 2 * std::numbers::pi * d / directions;
            const double x = at.x + (reach + distance) * std::cos(angle);
            const double y = at.y + (reach + distance) * std::sin(angle);
            // The box leans away from the symbol: its near side or corner at the end of the leader.
            const double left = x - width * (1 - std::cos(angle)) / 2;
            const double top = y - height * (1 - std::sin(angle)) / 2;
            const Rectangle box = box_at(left, top, width, height);
            result.push_back({box, 4 + distance / 6, leader_to(at, reach, box)});
        }
    }
    return result;
}

}  // namespace spadework::drawing
