#include <algorithm>

#include <fmt/format.h>

#include "report/html_figure.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/layouts_table.hpp"
#include "report/link_tables.hpp"

namespace spadework::report {

namespace {

void write_plan_of(HtmlWriter& html, const Scenario& scenario, const LayoutResult& result) {
    const std::string id = fmt::format("plan-{}", id_of(result.layout));
    write_drawing(html, id, fmt::format("Plan: {}", name_of(result.layout)),
                  fmt::format("{}. The same as a file of its own: {}.svg.", name_of(result.layout), id),
                  [&](const drawing::Frame& frame) { return drawing::plan_svg(scenario, result, frame); });
}

bool same_ways(const PlannedCable& a, const PlannedCable& b) {
    return a.id == b.id && a.product == b.product && a.steps == b.steps;
}

/// Whether two plans would be drawn alike, whatever layout each came from.
bool look_alike(const Plan& a, const Plan& b) {
    return a.trenches == b.trenches &&
           std::equal(a.cables.begin(), a.cables.end(), b.cables.begin(), b.cables.end(), same_ways);
}

/// The layout drawn already that this one's plan looks like; nothing where there is none.
const LayoutResult* drawn_already(const std::vector<const LayoutResult*>& drawn, const LayoutResult& result) {
    const auto same = std::find_if(drawn.begin(), drawn.end(),
                                   [&](const LayoutResult* other) { return look_alike(*other->plan, *result.plan); });
    return same == drawn.end() ? nullptr : *same;
}

}  // namespace

void write_plan(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    const LayoutResult* best = cheapest_of(parts.comparison);
    if (best == nullptr) return;
    open_section(html, "plan", fmt::format("Plan: {}", name_of(best->layout)));
    write_plan_of(html, scenario, *best);
    html.close();
}

void write_layouts(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    const Comparison& comparison = parts.comparison;
    if (!comparison.cheapest) return;
    open_section(html, "layouts", "Layouts compared");
    write_chart(html, "cost-bars", "What each layout costs, by category.",
                [&](const drawing::Frame& frame) { return drawing::cost_bars_svg(scenario, comparison, frame); });
    write_table(html, "Layouts side by side", layouts_table(scenario, comparison));
    write_list(html, layout_remarks(comparison));
    if (any_ruled_out(comparison)) write_table(html, "What rules layouts out", ruled_out_table(comparison));
    write_chart(html, "ground-bars", "Where each layout runs, by ground.",
                [&](const drawing::Frame& frame) { return drawing::ground_bars_svg(scenario, comparison, frame); });
    html.close();
}

void write_other_plans(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    const LayoutResult* best = cheapest_of(parts.comparison);
    if (best == nullptr || parts.comparison.layouts.size() < 2) return;
    std::vector<const LayoutResult*> drawn = {best};
    std::vector<std::string> alike;
    open_section(html, "other-plans", "Plans of the other layouts");
    for (const LayoutResult& layout : parts.comparison.layouts) {
        if (&layout == best || !layout.feasible()) continue;
        if (const LayoutResult* same = drawn_already(drawn, layout)) {
            alike.push_back(fmt::format("{}: the same plan as {}.", name_of(layout.layout), name_of(same->layout)));
            continue;
        }
        drawn.push_back(&layout);
        html.element("h3", name_of(layout.layout));
        write_plan_of(html, scenario, layout);
    }
    write_list(html, alike);
    if (drawn.size() == 1 && alike.empty()) html.element("p", "No other layout can be built.");
    html.close();
}

}  // namespace spadework::report
