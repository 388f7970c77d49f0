#include <array>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "drawing/bar_chart.hpp"
#include "drawing/drawing.hpp"
#include "drawing/figures.hpp"

namespace spadework::drawing {

namespace {

/// Categories that share a fill: more than seven fills side by side cannot be told apart.
struct CategoryGroup {
    const char* name;
    std::array<Category, 3> categories;
    int count;
};

constexpr std::array<CategoryGroup, 7> groups = {{
    {"Groundworks", {Category::groundworks}, 1},
    {"Crossings and permits", {Category::crossings_and_permits}, 1},
    {"Ducts and cable", {Category::ducts, Category::cable}, 2},
    {"Terminations and enclosures", {Category::terminations, Category::enclosures}, 2},
    {"Optics and gear", {Category::optics, Category::endpoint_gear, Category::hub_gear}, 3},
    {"Mobilisation and testing", {Category::mobilisation, Category::testing}, 2},
    {"Contingency and tax", {Category::contingency, Category::tax}, 2},
}};

Money group_total(const LayoutResult& layout, const CategoryGroup& group) {
    Money sum;
    for (int i = 0; i < group.count; ++i)
        sum += layout.bill.total(group.categories[static_cast<std::size_t>(i)]);
    return sum;
}

bool occurs(const Comparison& comparison, const CategoryGroup& group) {
    for (const LayoutResult& layout : comparison.layouts) {
        if (layout.feasible() && group_total(layout, group) != Money()) return true;
    }
    return false;
}

std::string not_feasible(const LayoutResult& layout) {
    const std::string why = layout.reason.empty() ? "no plan was found" : layout.reason;
    return "Not feasible: " + drawn(why, 400);
}

/// A rectangle for each category, those of one group in one fill.
std::vector<BarPiece> pieces_of(const Scenario& scenario, const LayoutResult& layout) {
    std::vector<BarPiece> pieces;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        for (int i = 0; i < groups[g].count; ++i) {
            const Category category = groups[g].categories[static_cast<std::size_t>(i)];
            const Money sum = layout.bill.total(category);
            if (sum == Money()) continue;
            pieces.push_back({static_cast<double>(sum.minor()), nth_fill(static_cast<int>(g)),
                              fmt::format("{}: {}", name_of(category), money_in_words(sum, scenario.currency))});
        }
    }
    return pieces;
}

Bar bar_of(const Scenario& scenario, const LayoutResult& layout, bool cheapest) {
    Bar bar;
    bar.label = name_of(layout.layout);
    bar.best = cheapest;
    if (!layout.feasible()) {
        bar.instead = not_feasible(layout);
        return bar;
    }
    bar.figure = money_figure(layout.total, scenario.currency);
    if (cheapest) bar.label += " (cheapest)";
    bar.pieces = pieces_of(scenario, layout);
    bar.mark = static_cast<double>(layout.bound.minor());
    bar.mark_title = "Proven lower bound: " + money_in_words(layout.bound, scenario.currency);
    return bar;
}

std::string description(const Scenario& scenario, const Comparison& comparison) {
    std::string text = "One bar for each layout, stacked by what is paid for.";
    for (const LayoutResult& layout : comparison.layouts) {
        if (!layout.feasible()) {
            text += fmt::format(" {}: not feasible, {}.", name_of(layout.layout),
                                drawn_in_sentence(layout.reason.empty() ? "no plan was found" : layout.reason, 200));
            continue;
        }
        text += fmt::format(" {}: {} in all, proven lower bound {}", name_of(layout.layout),
                            money_in_words(layout.total, scenario.currency),
                            money_in_words(layout.bound, scenario.currency));
        for (const CategoryGroup& group : groups) {
            const Money sum = group_total(layout, group);
            if (sum != Money()) text += fmt::format("; {} {}", group.name, money_figure(sum, scenario.currency));
        }
        text += ".";
    }
    return text;
}

}  // namespace

std::string cost_bars_svg(const Scenario& scenario, const Comparison& comparison, const Frame& frame) {
    BarChart chart;
    chart.id = "layouts";
    chart.title = fmt::format("What each layout costs ({})", scenario.currency.code);
    chart.axis_text = fmt::format("Total to pay in {}, contingency and tax included", scenario.currency.code);
    chart.tick = [&](double value, double step) { return money_tick_text(value, step, scenario.currency); };
    chart.when_empty = "No layout was compared.";
    for (std::size_t i = 0; i < comparison.layouts.size(); ++i)
        chart.bars.push_back(bar_of(scenario, comparison.layouts[i],
                                    comparison.cheapest && *comparison.cheapest == static_cast<int>(i)));
    for (std::size_t g = 0; g < groups.size(); ++g) {
        if (occurs(comparison, groups[g])) chart.legend.push_back({nth_fill(static_cast<int>(g)), groups[g].name});
    }
    if (!chart.legend.empty()) chart.legend.push_back({{}, "Proven lower bound", true});
    const std::string title = fmt::format("Costs of the layouts: {}", drawn_in_sentence(scenario.name));
    return bar_chart_svg(chart, {"cost-bars", title, description(scenario, comparison)}, frame);
}

}  // namespace spadework::drawing
