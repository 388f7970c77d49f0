#pragma once

// Horizontal stacked bars below each other, each under a line that names it and gives its total: the same arrangement
// at every width.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "drawing/axis.hpp"
#include "drawing/fill.hpp"
#include "drawing/picture.hpp"

namespace spadework::drawing {

struct BarPiece {
    double amount = 0;  ///< On the axis; not below 0.
    Fill fill;
    std::string title;  ///< What a pointer held over it shows.
};

struct Bar {
    std::string label;
    std::string figure;  ///< Its total, at the right.
    std::vector<BarPiece> pieces;
    std::vector<BarPiece> apart;  ///< Behind a gap: counted on the axis, but no part of the total.
    std::optional<double> mark;   ///< A line across the bar.
    std::string mark_title;       ///< What a pointer held over that line shows.
    std::string instead;          ///< A sentence in the place of a bar; empty when there is one.
    bool best = false;            ///< Its label is bold.
};

struct LegendEntry {
    Fill fill;
    std::string text;
    bool is_mark = false;  ///< The line across bars instead of a fill.
};

struct BarChart {
    std::string id;         ///< Of the group that holds the bars.
    std::string title;      ///< Above everything.
    std::string axis_text;  ///< Below the axis: what is measured, with its unit.
    std::function<std::string(double value, double step)> tick;
    std::vector<Bar> bars;
    std::vector<LegendEntry> legend;  ///< Only of what occurs.
    std::string when_empty;           ///< A sentence for no bar at all.
};

/// Draws the chart; the heading's description says its figures in words.
std::string bar_chart_svg(const BarChart& chart, const Heading& heading, const Frame& frame);

}  // namespace spadework::drawing
