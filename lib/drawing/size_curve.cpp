#include "drawing/size_curve.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "drawing/base_map.hpp"
#include "drawing/legend_flow.hpp"

namespace spadework::drawing {

namespace {

constexpr double margin = 16;
constexpr double upper_height = 190;
constexpr double lower_height = 90;
constexpr double room_for_values = 12;  ///< Above the highest grid line.
constexpr double dot = 4.5;
constexpr const char* line_colour = "#1f5a89";
constexpr const char* bar_colour = "#7fa8c9";
constexpr const char* unfit_colour = "#e4e4e4";

class CurveDrawing {
public:
    CurveDrawing(const SizeCurve& curve, const Heading& heading, const Frame& frame)
        : curve_(curve),
          heading_(heading),
          frame_(frame),
          ids_(frame, heading.kind),
          right_(usable_width(frame) - margin) {
        double most = 0;
        for (const SizeSeries& series : curve.series) {
            for (const double value : series.values)
                most = std::isfinite(value) ? std::max(most, value) : most;
        }
        ticks_ = round_ticks(most, 4);
        double widest = width_of("100", {small_size});
        for (const double tick : ticks_.at)
            widest = std::max(widest, width_of(curve.tick(tick, ticks_.step), {small_size}));
        left_ = margin + widest + 8;
    }

    std::string run() {
        y_ = margin + title_size;
        y_ = write_lines(svg_, margin, y_, wrapped(curve_.title, right_ - margin, {title_size, true}),
                         {{title_size, true}}) +
             4;
        if (curve_.columns.empty()) {
            write_text(svg_, margin, y_, "No cable is on offer.", {{text_size}, colour::quiet});
            return picture(frame_, heading_, y_ + margin, svg_);
        }
        draw_legend();
        draw_upper();
        draw_lower();
        draw_labels();
        return picture(frame_, heading_, y_ + margin, svg_);
    }

private:
    [[nodiscard]] double column_width() const { return (right_ - left_) / static_cast<double>(curve_.columns.size()); }
    [[nodiscard]] double middle(std::size_t column) const {
        return left_ + (static_cast<double>(column) + 0.5) * column_width();
    }
    [[nodiscard]] bool any(bool SizeColumn::*flag, bool value) const {
        return std::any_of(curve_.columns.begin(), curve_.columns.end(),
                           [&](const SizeColumn& column) { return column.*flag == value; });
    }

    void draw_legend() {
        svg_.open("g", {{"id", ids_.id("legend")}});
        LegendFlow flow(margin, right_, y_ - small_size);
        const auto next = [&](std::string_view text) {
            const LegendSpot spot = flow.next(text);
            write_text(svg_, spot.text_x, spot.y, spot.text, {{small_size}});
            return Point{spot.x + 9, spot.y - 4};
        };
        for (const SizeSeries& series : curve_.series) {
            const Point at = next(series.name);
            write_series_line(path_of(std::vector<Point>{{at.x - 9, at.y}, {at.x + 9, at.y}}), series);
        }
        if (any(&SizeColumn::recommended, true)) write_dot(next("Recommended"), true, true);
        if (any(&SizeColumn::fits, false)) write_dot(next("Too small for the policy"), false, false);
        svg_.close();
        y_ = flow.below() + 8;
    }

    void write_series_line(const std::string& path, const SizeSeries& series) {
        Attributes attributes = {{"d", path}, {"fill", "none"}, {"stroke", line_colour}, {"stroke-width", 2}};
        if (!series.dashes.empty()) attributes.emplace_back("stroke-dasharray", series.dashes);
        svg_.leaf("path", attributes);
    }

    void write_dot(const Point& at, bool fits, bool recommended, std::string_view title = "") {
        const double half = recommended ? dot + 2 : dot;
        const char* fill = recommended ? colour::accent : fits ? line_colour : colour::paper;
        const Attributes look = {{"fill", fill}, {"stroke", colour::ink}, {"stroke-width", 1.2}};
        Attributes attributes = {{"cx", at.x}, {"cy", at.y}, {"r", half}};
        if (recommended) {
            const std::string path = path_of(
                std::vector<Point>{{at.x, at.y - half}, {at.x + half, at.y}, {at.x, at.y + half}, {at.x - half, at.y}});
            attributes = {{"d", path + " Z"}};
        }
        attributes.insert(attributes.end(), look.begin(), look.end());
        svg_.titled(recommended ? "path" : "circle", attributes, title);
    }

    /// Grid lines with their values; y_ becomes the bottom of the part.
    void draw_grid(const std::string& text, double height, const RoundTicks& ticks,
                   const std::function<std::string(double, double)>& tick_text_of) {
        y_ = write_lines(svg_, margin, y_ + small_size, wrapped(text, right_ - margin, {small_size, true}),
                         {{small_size, true}}) -
             4;
        y_ += room_for_values;
        const double bottom = y_ + height;
        for (const double tick : ticks.at) {
            const double y = bottom - tick / ticks.last() * height;
            write_line(svg_, left_, y, right_, y, tick == 0 ? colour::rule : colour::faint, 1);
            write_text(svg_, left_ - 6, y + 4, tick_text_of(tick, ticks.step),
                       {{small_size}, colour::ink, Anchor::end});
        }
        y_ = bottom;
    }

    void draw_upper() {
        svg_.open("g", {{"id", ids_.id("price")}});
        draw_grid(curve_.price_text, upper_height, ticks_, curve_.tick);
        for (const SizeSeries& series : curve_.series) {
            std::vector<Point> line;
            std::vector<std::size_t> drawn_columns;
            for (std::size_t c = 0; c < curve_.columns.size(); ++c) {
                if (!std::isfinite(series.values[c])) continue;
                line.push_back({middle(c), y_ - series.values[c] / ticks_.last() * upper_height});
                drawn_columns.push_back(c);
            }
            if (line.empty()) continue;
            write_series_line(path_of(line), series);
            for (std::size_t i = 0; i < line.size(); ++i) {
                const SizeColumn& column = curve_.columns[drawn_columns[i]];
                write_dot(line[i], column.fits, column.recommended, column.title);
            }
            if (curve_.series.size() == 1) write_values(line, series);
        }
        svg_.close();
        y_ += 16;
    }

    /// Each amount above its dot, where columns are wide enough.
    void write_values(const std::vector<Point>& line, const SizeSeries& series) {
        for (std::size_t c = 0; c < line.size(); ++c)
            write_value(line[c].x, line[c].y - dot - 5, series.texts[c], curve_.columns[c].recommended);
    }

    void write_value(double x, double y, const std::string& text, bool bold) {
        const Lettering lettering{small_size, bold};
        if (width_of(text, lettering) < column_width() - 4)
            write_text(svg_, x, y, text, {lettering, colour::ink, Anchor::middle});
    }

    void draw_lower() {
        svg_.open("g", {{"id", ids_.id("chance")}});
        draw_grid(curve_.chance_text, lower_height, round_ticks(100, 2), tick_text);
        const double width = std::min(40.0, 0.6 * column_width());
        for (std::size_t c = 0; c < curve_.columns.size(); ++c) {
            const SizeColumn& column = curve_.columns[c];
            const double height = std::clamp(column.chance_enough, 0.0, 1.0) * lower_height;
            svg_.titled("rect",
                        {{"x", middle(c) - width / 2},
                         {"y", y_ - height},
                         {"width", width},
                         {"height", height},
                         {"fill", column.recommended ? colour::accent
                                  : column.fits      ? bar_colour
                                                     : unfit_colour},
                         {"stroke", colour::ink},
                         {"stroke-width", 0.8}},
                        column.title);
            write_value(middle(c), y_ - height - 4, column.chance_text, column.recommended);
        }
        svg_.close();
    }

    /// Strand counts below their columns; some are left out where they would touch.
    void draw_labels() {
        svg_.open("g", {{"id", ids_.id("sizes")}});
        double free_from = 0;
        for (std::size_t c = 0; c < curve_.columns.size(); ++c) {
            const Lettering lettering{small_size, curve_.columns[c].recommended};
            const double half = width_of(curve_.columns[c].label, lettering) / 2;
            if (middle(c) - half < free_from) continue;
            write_text(svg_, middle(c), y_ + 16, curve_.columns[c].label, {lettering, colour::ink, Anchor::middle});
            free_from = middle(c) + half + 6;
        }
        y_ = write_lines(svg_, margin, y_ + 36, wrapped(curve_.size_text, right_ - margin, {small_size}),
                         {{small_size}, colour::quiet}) -
             small_size;
        svg_.close();
    }

    const SizeCurve& curve_;
    const Heading& heading_;
    const Frame& frame_;
    Ids ids_;
    double left_ = 0;
    double right_ = 0;
    double y_ = 0;
    RoundTicks ticks_;
    SvgWriter svg_{1};
};

}  // namespace

std::string size_curve_svg(const SizeCurve& curve, const Heading& heading, const Frame& frame) {
    return CurveDrawing(curve, heading, frame).run();
}

}  // namespace spadework::drawing
