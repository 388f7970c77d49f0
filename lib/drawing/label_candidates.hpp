#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "drawing/map_frame.hpp"

namespace spadework::drawing {

/// A place a label could have.
struct LabelCandidate {
    Rectangle box;
    double dislike = 0;                             ///< Lower is better.
    std::optional<std::pair<Point, Point>> leader;  ///< For boxes that are not beside their symbol.
};

bool overlap(const Rectangle& a, const Rectangle& b);
bool holds(const Rectangle& outer, const Rectangle& inner);
/// A line from a to b touches the rectangle.
bool touches(const std::pair<Point, Point>& line, const Rectangle& rectangle);
/// Two lines cross or touch.
bool cross(const std::pair<Point, Point>& a, const std::pair<Point, Point>& b);

/// Boxes of that size around a symbol, best liked first: right, left, above, below, then the corners.
std::vector<LabelCandidate> beside(const Point& at, double reach, double width, double height);
/// Boxes at growing distances all around, with leaders, up to `farthest` from the symbol.
std::vector<LabelCandidate> at_a_distance(const Point& at, double reach, double width, double height, double farthest);

}  // namespace spadework::drawing
