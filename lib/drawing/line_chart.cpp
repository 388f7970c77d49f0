#include "drawing/line_chart.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "drawing/axis.hpp"
#include "drawing/base_map.hpp"
#include "drawing/legend_flow.hpp"

namespace spadework::drawing {

namespace {

constexpr double margin = 16;
constexpr double plot_height = 300;
constexpr double sign_width = 34;

struct LineLook {
    const char* colour;
    const char* dashes;
};
/// Told apart by their dashes where colours are not seen.
constexpr std::array<LineLook, line_looks> looks = {{{"#1f5a89", ""},
                                                     {"#b3400f", "9 3"},
                                                     {"#2f7d32", "2 3"},
                                                     {"#7a3b8f", "12 3 2 3"},
                                                     {"#8a6d00", "5 5"},
                                                     {"#444444", "2 2 6 2"}}};

/// Round values from within the axis.
std::vector<double> ticks_within(const ChartAxis& axis, double step) {
    std::vector<double> at;
    const double first = std::ceil(axis.least / step - 1e-9);
    for (double i = first; i * step <= axis.most + 1e-9 * step && at.size() < 40; ++i)
        at.push_back(i * step + 0.0);  // No minus before a 0.
    return at;
}

class ChartDrawing {
public:
    ChartDrawing(const LineChart& chart, const Heading& heading, const Frame& frame)
        : chart_(chart),
          heading_(heading),
          frame_(frame),
          ids_(frame, heading.kind),
          right_(usable_width(frame) - margin),
          y_step_(step_of(chart.y, 5)),
          y_ticks_(ticks_within(chart.y, y_step_)) {
        double widest = 0;
        for (const double tick : y_ticks_)
            widest = std::max(widest, width_of(chart.y.tick(tick, y_step_), {small_size}));
        left_ = margin + widest + 8;
    }

    std::string run() {
        y_ = margin + title_size;
        const Lettering title{title_size, true};
        y_ = write_lines(svg_, margin, y_, wrapped(chart_.title, right_ - margin, title), {title}) + 4;
        if (chart_.lines.empty()) {
            write_text(svg_, margin, y_, chart_.none, {{text_size}, colour::quiet});
            return picture(frame_, heading_, y_ + margin, svg_);
        }
        draw_legend();
        draw_marks_text();
        draw_grid();
        draw_bands();
        draw_lines();
        draw_x_axis();
        return picture(frame_, heading_, y_ + margin, svg_);
    }

private:
    static double step_of(const ChartAxis& axis, int wanted) {
        return round_ticks(axis.most - axis.least, wanted).step;
    }
    [[nodiscard]] Point at(double x, double y) const {
        const double across = (x - chart_.x.least) / (chart_.x.most - chart_.x.least);
        const double up = (y - chart_.y.least) / (chart_.y.most - chart_.y.least);
        return {left_ + std::clamp(across, 0.0, 1.0) * (right_ - left_),
                bottom_ - std::clamp(up, 0.0, 1.0) * plot_height};
    }
    static const LineLook& look_of(const ChartLine& line) {
        return looks[static_cast<std::size_t>(line.look) % looks.size()];
    }

    void write_line_path(const std::vector<Point>& points, const LineLook& look) {
        Attributes attributes = {
            {"d", path_of(points)}, {"fill", "none"}, {"stroke", look.colour}, {"stroke-width", 2}};
        if (look.dashes[0] != '\0') attributes.emplace_back("stroke-dasharray", look.dashes);
        svg_.leaf("path", attributes);
    }

    void draw_legend() {
        svg_.open("g", {{"id", ids_.id("legend")}});
        LegendFlow flow(margin, right_, y_ - small_size, sign_width);
        for (const ChartLine& line : chart_.lines) {
            const LegendSpot spot = flow.next(line.name);
            write_line_path({{spot.x, spot.y - 4}, {spot.x + sign_width - 4, spot.y - 4}}, look_of(line));
            write_text(svg_, spot.text_x, spot.y, spot.text, {{small_size}});
        }
        svg_.close();
        y_ = flow.below() + 8;
    }

    /// Texts of the marks in rows above the plot, and the heading of the y axis below them.
    void draw_marks_text() {
        svg_.open("g", {{"id", ids_.id("marks")}});
        std::vector<double> free_from;
        for (const ChartMark& mark : chart_.marks) {
            const std::string text = shortened(mark.text, right_ - left_, {small_size});
            const double width = width_of(text, {small_size});
            const double x = std::clamp(at(mark.x, 0).x - width / 2, left_, std::max(left_, right_ - width));
            std::size_t row = 0;
            while (row < free_from.size() && free_from[row] > x)
                ++row;
            if (row == free_from.size()) free_from.push_back(0);
            free_from[row] = x + width + 8;
            write_text(svg_, x, y_ + small_size + static_cast<double>(row) * line_height(small_size), text,
                       {{small_size}});
        }
        svg_.close();
        y_ += static_cast<double>(free_from.size()) * line_height(small_size);
        const Lettering heading{small_size, true};
        y_ =
            write_lines(svg_, margin, y_ + small_size + 4, wrapped(chart_.y.text, right_ - margin, heading), {heading});
        bottom_ = y_ + plot_height;
    }

    void draw_grid() {
        svg_.open("g", {{"id", ids_.id("grid")}});
        for (const double tick : y_ticks_) {
            const double y = at(0, tick).y;
            write_line(svg_, left_, y, right_, y, colour::faint, 1);
            write_text(svg_, left_ - 6, y + 4, chart_.y.tick(tick, y_step_), {{small_size}, colour::ink, Anchor::end});
        }
        write_line(svg_, left_, bottom_, right_, bottom_, colour::rule, 1);
        for (const ChartMark& mark : chart_.marks) {
            const double x = at(mark.x, 0).x;
            Attributes line = {{"x1", x},       {"y1", bottom_ - plot_height}, {"x2", x},
                               {"y2", bottom_}, {"stroke", colour::ink},       {"stroke-width", 1}};
            if (!mark.sure) line.emplace_back("stroke-dasharray", "3 4");
            svg_.leaf("line", line);
        }
        svg_.close();
    }

    void draw_bands() {
        for (const ChartLine& line : chart_.lines) {
            if (line.lower.size() != line.points.size() || line.points.empty()) continue;
            for (std::size_t first = 0; first < line.points.size();) {
                std::size_t end = first;
                while (end < line.points.size() && !std::isnan(line.lower[end]))
                    ++end;
                if (end - first > 1) draw_band(line, first, end);
                first = end + 1;
            }
        }
    }

    /// From one point to before another.
    void draw_band(const ChartLine& line, std::size_t first, std::size_t end) {
        std::vector<Point> border;
        for (std::size_t i = first; i < end; ++i)
            border.push_back(at(line.points[i].x, line.points[i].y));
        for (std::size_t i = end; i-- > first;)
            border.push_back(at(line.points[i].x, line.lower[i]));
        svg_.leaf("path", {{"d", path_of(border) + " Z"},
                           {"fill", look_of(line).colour},
                           {"fill-opacity", 0.15},
                           {"stroke", "none"}});
    }

    void draw_lines() {
        svg_.open("g", {{"id", ids_.id("lines")}});
        for (const ChartLine& line : chart_.lines) {
            std::vector<Point> points;
            for (const ChartPoint& point : line.points)
                points.push_back(at(point.x, point.y));
            if (points.size() > 1) write_line_path(points, look_of(line));
            if (!line.dots && points.size() > 1) continue;
            for (const Point& point : points) {
                svg_.titled("circle", {{"cx", point.x}, {"cy", point.y}, {"r", 2.5}, {"fill", look_of(line).colour}},
                            line.name);
            }
        }
        svg_.close();
    }

    void draw_x_axis() {
        svg_.open("g", {{"id", ids_.id("range")}});
        const double step = step_of(chart_.x, right_ - left_ > 500 ? 8 : 3);
        double free_from = 0;
        for (const double tick : ticks_within(chart_.x, step)) {
            const std::string text = chart_.x.tick(tick, step);
            const double half = width_of(text, {small_size}) / 2;
            const double x = at(tick, 0).x;
            write_line(svg_, x, bottom_, x, bottom_ + 4, colour::rule, 1);
            const double middle = std::clamp(x, left_ + half, right_ - half);
            if (middle - half < free_from) continue;
            write_text(svg_, middle, bottom_ + 18, text, {{small_size}, colour::ink, Anchor::middle});
            free_from = middle + half + 6;
        }
        const Lettering heading{small_size, true};
        y_ = write_lines(svg_, margin, bottom_ + 38, wrapped(chart_.x.text, right_ - margin, heading), {heading});
        if (!chart_.below.empty()) {
            y_ = write_lines(svg_, margin, y_ + 4, wrapped(chart_.below, right_ - margin, {small_size}),
                             {{small_size}, colour::quiet});
        }
        y_ -= small_size;
        svg_.close();
    }

    const LineChart& chart_;
    const Heading& heading_;
    const Frame& frame_;
    Ids ids_;
    double left_ = 0;
    double right_ = 0;
    double y_ = 0;
    double bottom_ = 0;
    double y_step_;
    std::vector<double> y_ticks_;
    SvgWriter svg_{1};
};

}  // namespace

std::string line_chart_svg(const LineChart& chart, const Heading& heading, const Frame& frame) {
    return ChartDrawing(chart, heading, frame).run();
}

}  // namespace spadework::drawing
