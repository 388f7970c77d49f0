#include "drawing/map_frame.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace spadework::drawing {

namespace {

/// Height of a map in widths: a long thin site is not drawn as a strip, nor a tall one over several screens.
constexpr double least_height = 0.42;
constexpr double most_height = 1.25;
constexpr double least_units_high = 240;  ///< Room for labels on narrow pictures.
/// A site that is a single point is shown with this much around it.
constexpr double least_extent_metres = 10;

/// Share of a stretch from a to b that is within the rectangle (Liang and Barsky 1984).
std::optional<std::pair<double, double>> share_within(const Point& a, const Point& b, const Rectangle& r) {
    double from = 0;
    double to = 1;
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const std::pair<double, double> borders[] = {
        {-dx, a.x - r.left}, {dx, r.right - a.x}, {-dy, a.y - r.top}, {dy, r.bottom - a.y}};
    for (const auto& [step, room] : borders) {
        if (step == 0) {
            if (room < 0) return std::nullopt;
            continue;
        }
        const double at = room / step;
        if (step < 0) {
            from = std::max(from, at);
        } else {
            to = std::min(to, at);
        }
    }
    if (from > to) return std::nullopt;
    return std::pair{from, to};
}

Point between(const Point& a, const Point& b, double share) {
    return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

/// One step of Sutherland and Hodgman 1974: the ring on the inner side of one border. `inside` is how far within.
template <typename Inside>
std::vector<Point> cut(const std::vector<Point>& ring, Inside inside) {
    std::vector<Point> result;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point& a = ring[i];
        const Point& b = ring[(i + 1) % ring.size()];
        const double inside_a = inside(a);
        const double inside_b = inside(b);
        if (inside_a >= 0) result.push_back(a);
        if ((inside_a >= 0) != (inside_b >= 0)) result.push_back(between(a, b, inside_a / (inside_a - inside_b)));
    }
    return result;
}

}  // namespace

Box box_around(const LocalPlane& plane, const std::vector<Position>& positions) {
    const Position first = plane.to_plane(positions.front());
    Box box{first.x, first.y, first.x, first.y};
    for (const Position& at : positions) {
        const Position on_plane = plane.to_plane(at);
        box = spadework::box_around(box, {on_plane.x, on_plane.y, on_plane.x, on_plane.y});
    }
    return box;
}

MapFrame::MapFrame(const Scenario& scenario, const std::vector<Position>& shown, double width, double padding)
    : plane_(scenario.coordinates, shown) {
    const Box box = box_around(plane_, shown);
    middle_ = {(box.left + box.right) / 2, (box.low + box.high) / 2};
    const double across = std::max(box.right - box.left, least_extent_metres);
    const double up = std::max(box.high - box.low, least_extent_metres);
    const double room = width - 2 * padding;
    const double least = std::max(least_height * width, least_units_high);
    const double height = std::clamp(std::ceil(room * up / across + 2 * padding), least, most_height * width);
    units_per_metre_ = std::min(room / across, (height - 2 * padding) / up);
    rectangle_ = {0, 0, width, height};
}

void MapFrame::move_to(double left, double top) {
    rectangle_ = {left, top, left + rectangle_.width(), top + rectangle_.height()};
}

Point MapFrame::point(const Position& at) const {
    const Position on_plane = plane_.to_plane(at);
    return {(rectangle_.left + rectangle_.right) / 2 + (on_plane.x - middle_.x) * units_per_metre_,
            (rectangle_.top + rectangle_.bottom) / 2 - (on_plane.y - middle_.y) * units_per_metre_};
}

std::vector<Point> MapFrame::points(const std::vector<Position>& line) const {
    std::vector<Point> result;
    result.reserve(line.size());
    for (const Position& at : line)
        result.push_back(point(at));
    return result;
}

std::vector<std::vector<Point>> clipped_line(const std::vector<Point>& line, const Rectangle& rectangle) {
    std::vector<std::vector<Point>> parts;
    bool joined = false;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const auto share = share_within(line[i], line[i + 1], rectangle);
        if (!share) {
            joined = false;
            continue;
        }
        if (!joined || share->first > 0) parts.push_back({between(line[i], line[i + 1], share->first)});
        parts.back().push_back(between(line[i], line[i + 1], share->second));
        joined = share->second >= 1;
    }
    return parts;
}

std::vector<Point> clipped_ring(const std::vector<Point>& ring, const Rectangle& r) {
    std::vector<Point> result = cut(ring, [&](const Point& p) { return p.x - r.left; });
    result = cut(result, [&](const Point& p) { return r.right - p.x; });
    result = cut(result, [&](const Point& p) { return p.y - r.top; });
    return cut(result, [&](const Point& p) { return r.bottom - p.y; });
}

}  // namespace spadework::drawing
