#pragma once

// From positions on the site to points of a picture.

#include <vector>

#include "geometry/box_tree.hpp"
#include "scenario/local_plane.hpp"
#include "scenario/scenario.hpp"

namespace spadework::drawing {

/// A point of a picture: x to the right, y down, SVG user units.
struct Point {
    double x = 0;
    double y = 0;
};

/// A rectangle of a picture.
struct Rectangle {
    double left = 0;
    double top = 0;
    double right = 0;
    double bottom = 0;
    [[nodiscard]] double width() const { return right - left; }
    [[nodiscard]] double height() const { return bottom - top; }
};

/// The box on the plane around some positions, at least one.
Box box_around(const LocalPlane& plane, const std::vector<Position>& positions);

/// A map to scale, north up, that shows a box of the site in a rectangle of the picture as wide as asked. The height
/// follows from the site's shape, within limits.
class MapFrame {
public:
    /// `shown` are the positions that must be seen, at least one; `padding` is free room on each side.
    MapFrame(const Scenario& scenario, const std::vector<Position>& shown, double width, double padding);

    /// Where the rectangle's upper left corner stands in the picture.
    void move_to(double left, double top);

    [[nodiscard]] Point point(const Position& at) const;
    [[nodiscard]] std::vector<Point> points(const std::vector<Position>& line) const;
    [[nodiscard]] const Rectangle& rectangle() const { return rectangle_; }
    [[nodiscard]] double units_per_metre() const { return units_per_metre_; }

private:
    LocalPlane plane_;
    Position middle_;  ///< On the plane, in metres.
    Rectangle rectangle_;
    double units_per_metre_ = 1;
};

/// Parts of a line that lie within the rectangle.
std::vector<std::vector<Point>> clipped_line(const std::vector<Point>& line, const Rectangle& rectangle);
/// A ring cut to the rectangle; empty when nothing of it is inside.
std::vector<Point> clipped_ring(const std::vector<Point>& ring, const Rectangle& rectangle);

}  // namespace spadework::drawing
