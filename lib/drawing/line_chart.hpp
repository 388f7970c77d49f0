#pragma once

// Lines over a range of numbers, with bands below them and marks along the range.

#include <functional>
#include <string>
#include <vector>

#include "drawing/picture.hpp"

namespace spadework::drawing {

struct ChartPoint {
    double x = 0;
    double y = 0;
};

struct ChartLine {
    std::string name;
    std::vector<ChartPoint> points;  ///< Ascending by x; where two are not neighbours the line is straight.
    /// Where given, one a point: between points that both have one, a band from the line down to here is shaded, for
    /// what the line proves. A NaN is none.
    std::vector<double> lower;
    int look = 0;       ///< From 0: its own colour and dashes.
    bool dots = false;  ///< Marks the points themselves.
};

/// A place on the x axis, with a line up and a text.
struct ChartMark {
    double x = 0;
    std::string text;
    bool sure = true;  ///< A dashed line where not.
};

struct ChartAxis {
    std::string text;  ///< Heading with its unit.
    double least = 0;
    double most = 1;
    std::function<std::string(double value, double step)> tick;
};

struct LineChart {
    std::string title;
    ChartAxis x;
    ChartAxis y;
    std::vector<ChartLine> lines;
    std::vector<ChartMark> marks;
    std::string below;  ///< A sentence under everything; may be empty.
    std::string none;   ///< What to say instead where there are no lines.
};

/// Looks that lines may have; the next one is like the first.
inline constexpr int line_looks = 6;

std::string line_chart_svg(const LineChart& chart, const Heading& heading, const Frame& frame);

}  // namespace spadework::drawing
