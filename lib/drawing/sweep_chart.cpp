#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "drawing/axis.hpp"
#include "drawing/doubt_charts.hpp"
#include "drawing/line_chart.hpp"

namespace spadework::drawing {

namespace {

constexpr double margin = 16;
constexpr double row_height = 22;
constexpr double no_bound = std::numeric_limits<double>::quiet_NaN();
constexpr std::array<const char*, line_looks> cell_fills = {"#cfe0ee", "#f3d3c2", "#d3ead4",
                                                            "#e5d5ec", "#efe6bf", "#dddddd"};

std::string heading_of(const SweptInput& input) {
    return input.unit.empty() ? drawn(input.key) : fmt::format("{} ({})", drawn(input.key), drawn(input.unit));
}

std::string value_text(double value) {
    return std::abs(value) < 1000 ? fmt::format("{:.5g}", value) : fmt::format("{:.6g}", value);
}

std::string winner_of(const Sweep& sweep, std::optional<int> winner) {
    return winner ? name_of(sweep.layouts[static_cast<std::size_t>(*winner)]) : "no layout";
}

ChartLine line_of(const Sweep& sweep, std::size_t layout) {
    ChartLine line;
    line.name = name_of(sweep.layouts[layout]);
    line.look = static_cast<int>(layout);
    for (const SweptPoint& point : sweep.points) {
        const SweptTotal& total = point.totals[layout];
        if (total.total == no_plan) continue;
        line.points.push_back({point.x, static_cast<double>(total.total)});
        line.lower.push_back(total.bound > 0 ? static_cast<double>(total.bound) : no_bound);
    }
    return line;
}

void set_ranges(LineChart& chart) {
    chart.x.least = chart.x.most = chart.lines.front().points.front().x;
    chart.y.least = chart.y.most = chart.lines.front().points.front().y;
    for (const ChartLine& line : chart.lines) {
        for (std::size_t i = 0; i < line.points.size(); ++i) {
            chart.x.least = std::min(chart.x.least, line.points[i].x);
            chart.x.most = std::max(chart.x.most, line.points[i].x);
            chart.y.least = std::min(chart.y.least, line.points[i].y);
            if (!std::isnan(line.lower[i])) chart.y.least = std::min(chart.y.least, line.lower[i]);
            chart.y.most = std::max(chart.y.most, line.points[i].y);
        }
    }
    if (chart.x.most <= chart.x.least) chart.x.most = chart.x.least + 1;
    if (chart.y.most <= chart.y.least) chart.y.most = chart.y.least + 1;
}

std::string line_picture(const Scenario& scenario, const Sweep& sweep, const Frame& frame) {
    LineChart chart;
    chart.title = "Total by layout along " + drawn(sweep.inputs[0].key);
    chart.none = "No layout can be built.";
    for (std::size_t layout = 0; layout < sweep.layouts.size(); ++layout) {
        ChartLine line = line_of(sweep, layout);
        if (!line.points.empty()) chart.lines.push_back(std::move(line));
    }
    chart.x = {heading_of(sweep.inputs[0]), 0, 1, tick_text};
    chart.y.text = fmt::format("Total ({})", scenario.currency.code);
    chart.y.tick = [&](double value, double step) { return money_tick_text(value, step, scenario.currency); };
    std::string description = "The cheapest plan known of each layout.";
    for (const WinnerChange& change : sweep.changes) {
        const double middle = (change.from + change.to) / 2;
        const std::string text = fmt::format("{}: {} to {}{}", value_text(middle), winner_of(sweep, change.before),
                                             winner_of(sweep, change.after), change.proven() ? "" : " (not proven)");
        chart.marks.push_back({middle, text, change.proven()});
        description += " The winner changes at " + text + ".";
    }
    if (!chart.lines.empty()) set_ranges(chart);
    chart.below = "Bands reach down to the lower bounds, where there are any.";
    const std::string title = fmt::format("What changes the winner: {}", drawn_in_sentence(scenario.name));
    return line_chart_svg(chart, {"sweep", title, description}, frame);
}

/// Values along one side, each once, ascending.
std::vector<double> side(const Sweep& sweep, double SweptPoint::*value) {
    std::vector<double> values;
    for (const SweptPoint& point : sweep.points)
        values.push_back(point.*value);
    std::sort(values.begin(), values.end());
    values.erase(std::unique(values.begin(), values.end()), values.end());
    return values;
}

void write_cell(SvgWriter& svg, const Sweep& sweep, const SweptPoint& point, double x, double y, double width) {
    const auto look = static_cast<std::size_t>(point.winner.value_or(0)) % cell_fills.size();
    svg.titled("rect",
               {{"x", x},
                {"y", y},
                {"width", width},
                {"height", row_height},
                {"fill", point.winner ? cell_fills[look] : colour::paper},
                {"stroke", colour::paper},
                {"stroke-width", 1}},
               fmt::format("{}, {}: {}{}", value_text(point.x), value_text(point.y), winner_of(sweep, point.winner),
                           point.proven ? ", proven" : ""));
    if (!point.winner || width < 12) return;
    const std::string letter(1, static_cast<char>((point.proven ? 'A' : 'a') + *point.winner));
    write_text(svg, x + width / 2, y + row_height - 7, letter, {{small_size}, colour::ink, Anchor::middle});
}

/// A cell for each pair of values, the second input upwards; returns the y below them.
double write_cells(SvgWriter& svg, const Sweep& sweep, double top, double right) {
    const std::vector<double> columns = side(sweep, &SweptPoint::x);
    const std::vector<double> rows = side(sweep, &SweptPoint::y);
    double widest = 0;
    for (const double row : rows)
        widest = std::max(widest, width_of(value_text(row), {small_size}));
    const double left = margin + widest + 8;
    const double width = (right - left) / static_cast<double>(columns.size());
    const double bottom = top + row_height * static_cast<double>(rows.size());
    for (const SweptPoint& point : sweep.points) {
        const auto column = std::lower_bound(columns.begin(), columns.end(), point.x) - columns.begin();
        const auto row = std::lower_bound(rows.begin(), rows.end(), point.y) - rows.begin();
        write_cell(svg, sweep, point, left + width * static_cast<double>(column),
                   bottom - row_height * static_cast<double>(row + 1), width);
    }
    for (std::size_t row = 0; row < rows.size(); ++row) {
        write_text(svg, left - 6, bottom - row_height * (static_cast<double>(row) + 1) + row_height - 7,
                   value_text(rows[row]), {{small_size}, colour::ink, Anchor::end});
    }
    double free_from = 0;
    for (std::size_t column = 0; column < columns.size(); ++column) {
        const std::string text = value_text(columns[column]);
        const double half = width_of(text, {small_size}) / 2;
        const double middle = std::min(left + width * (static_cast<double>(column) + 0.5), right - half);
        if (middle - half < free_from) continue;
        write_text(svg, middle, bottom + 16, text, {{small_size}, colour::ink, Anchor::middle});
        free_from = middle + half + 8;
    }
    return bottom + 36;
}

std::string grid_picture(const Scenario& scenario, const Sweep& sweep, const Frame& frame) {
    SvgWriter svg(1);
    const double right = usable_width(frame) - margin;
    const Lettering bold{title_size, true};
    double y =
        write_lines(svg, margin, margin + title_size, wrapped("Winner by two inputs", right - margin, bold), {bold});
    const Lettering small{small_size, true};
    y = write_lines(svg, margin, y + 4, wrapped("Upwards: " + heading_of(sweep.inputs[1]), right - margin, small),
                    {small});
    y = write_cells(svg, sweep, y, right);
    y = write_lines(svg, margin, y, wrapped("Across: " + heading_of(sweep.inputs[0]), right - margin, small), {small});
    std::string legend;
    for (std::size_t layout = 0; layout < sweep.layouts.size(); ++layout)
        legend += fmt::format("{}{} {}", legend.empty() ? "" : "; ", static_cast<char>('A' + layout),
                              name_of(sweep.layouts[layout]));
    y = write_lines(svg, margin, y + 4, wrapped(legend + ". Capitals are proven.", right - margin, {small_size}),
                    {{small_size}, colour::quiet});
    const std::string title = fmt::format("What changes the winner: {}", drawn_in_sentence(scenario.name));
    return picture(frame, {"sweep", title, "The winner at each pair of values. " + legend + "."}, y, svg);
}

}  // namespace

std::string sweep_svg(const Scenario& scenario, const Sweep& sweep, const Frame& frame) {
    if (sweep.inputs.size() > 1 && !sweep.points.empty()) return grid_picture(scenario, sweep, frame);
    return line_picture(scenario, sweep, frame);
}

}  // namespace spadework::drawing
