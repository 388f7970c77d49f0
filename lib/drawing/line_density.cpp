#include "drawing/line_density.hpp"

#include <algorithm>
#include <cmath>

namespace spadework::drawing {

namespace {

constexpr double cell = 4;

}  // namespace

LineDensity::LineDensity(const std::vector<std::vector<Point>>& lines, const Rectangle& room)
    : room_(room),
      columns_(static_cast<int>(room.width() / cell) + 1),
      rows_(static_cast<int>(room.height() / cell) + 1),
      passed_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), 0) {
    for (const std::vector<Point>& line : lines) {
        for (const std::vector<Point>& part : clipped_line(line, room)) {
            for (std::size_t i = 0; i + 1 < part.size(); ++i)
                mark(part[i], part[i + 1]);
        }
    }
}

int LineDensity::column(double x) const {
    return std::clamp(static_cast<int>((x - room_.left) / cell), 0, columns_ - 1);
}

int LineDensity::row(double y) const {
    return std::clamp(static_cast<int>((y - room_.top) / cell), 0, rows_ - 1);
}

void LineDensity::mark(const Point& a, const Point& b) {
    const int steps = 1 + static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / (cell / 2));
    for (int i = 0; i <= steps; ++i) {
        const double share = static_cast<double>(i) / steps;
        const int x = column(a.x + share * (b.x - a.x));
        const int y = row(a.y + share * (b.y - a.y));
        passed_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(x)] = 1;
    }
}

double LineDensity::share_covered(const Rectangle& box) const {
    int covered = 0;
    int cells = 0;
    for (int y = row(box.top); y <= row(box.bottom); ++y) {
        for (int x = column(box.left); x <= column(box.right); ++x) {
            covered +=
                passed_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(x)];
            ++cells;
        }
    }
    return static_cast<double>(covered) / cells;
}

}  // namespace spadework::drawing
