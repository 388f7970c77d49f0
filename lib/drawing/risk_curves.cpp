#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "doubt/statistics.hpp"
#include "drawing/axis.hpp"
#include "drawing/doubt_charts.hpp"
#include "drawing/figures.hpp"
#include "drawing/line_chart.hpp"

namespace spadework::drawing {

namespace {

constexpr int steps = 100;

std::vector<double> totals_of(const RiskSample& sample, std::size_t layout) {
    std::vector<double> totals;
    for (std::size_t at = layout; at < sample.totals.size(); at += sample.head.layouts.size()) {
        if (sample.totals[at].best != no_plan) totals.push_back(static_cast<double>(sample.totals[at].best));
    }
    std::sort(totals.begin(), totals.end());
    return totals;
}

ChartLine curve_of(const RiskSample& sample, std::size_t layout) {
    ChartLine line;
    line.name = name_of(sample.head.layouts[layout].layout);
    line.look = static_cast<int>(layout);
    const std::vector<double> totals = totals_of(sample, layout);
    for (int percent = 0; percent <= steps && !totals.empty(); ++percent)
        line.points.push_back({sample_quantile(totals, static_cast<double>(percent) / steps), percent * 100.0 / steps});
    return line;
}

std::string description(const RiskSample& sample, const std::vector<ChartLine>& lines) {
    std::string text =
        fmt::format("Share of {} draws at which each layout costs no more than an amount.", sample.count());
    for (const ChartLine& line : lines) {
        const auto at = [&](std::size_t percent) {
            return money_figure(Money::from_minor(std::llround(line.points[percent].x)), sample.head.currency);
        };
        text += fmt::format(" {}: half of the draws within {} {}, nine of ten within {}.", line.name,
                            sample.head.currency.code, at(50), at(90));
    }
    return text;
}

}  // namespace

std::string risk_curves_svg(const RiskSample& sample, const Frame& frame) {
    LineChart chart;
    chart.title = "How likely it is that a layout costs no more";
    chart.none = "No layout can be built.";
    for (std::size_t layout = 0; layout < sample.head.layouts.size(); ++layout) {
        ChartLine line = curve_of(sample, layout);
        if (!line.points.empty()) chart.lines.push_back(std::move(line));
    }
    chart.x.text = fmt::format("Total ({})", sample.head.currency.code);
    chart.x.tick = [&](double value, double step) { return money_tick_text(value, step, sample.head.currency); };
    chart.y = {"Share of draws (%)", 0, 100, tick_text};
    if (!chart.lines.empty()) {
        chart.x.least = chart.lines.front().points.front().x;
        chart.x.most = chart.x.least;
        for (const ChartLine& line : chart.lines) {
            chart.x.least = std::min(chart.x.least, line.points.front().x);
            chart.x.most = std::max(chart.x.most, line.points.back().x);
        }
        if (chart.x.most - chart.x.least < 1) chart.x.most = chart.x.least + 1;
    }
    const std::string title = fmt::format("What may it cost: {}", drawn_in_sentence(sample.head.site));
    return line_chart_svg(chart, {"risk-curves", title, description(sample, chart.lines)}, frame);
}

}  // namespace spadework::drawing
