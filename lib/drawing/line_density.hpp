#pragma once

#include <vector>

#include "drawing/map_frame.hpp"

namespace spadework::drawing {

/// Where the lines of a map run, on a raster of small cells.
class LineDensity {
public:
    LineDensity(const std::vector<std::vector<Point>>& lines, const Rectangle& room);

    /// Share of the box's cells that a line passes, 0 to 1.
    [[nodiscard]] double share_covered(const Rectangle& box) const;

private:
    void mark(const Point& a, const Point& b);
    [[nodiscard]] int column(double x) const;
    [[nodiscard]] int row(double y) const;

    Rectangle room_;
    int columns_ = 1;
    int rows_ = 1;
    std::vector<char> passed_;
};

}  // namespace spadework::drawing
