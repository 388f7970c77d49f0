#include "report/layouts_table.hpp"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"
#include "strands/strand_need.hpp"

namespace spadework::report {

namespace {

using Cell = std::function<std::string(const LayoutResult&)>;

/// Fills the rows of a table that has a column for each layout.
class RowFiller {
public:
    RowFiller(TextTable& table, const std::vector<LayoutResult>& layouts) : table_(table), layouts_(layouts) {}

    void add(const std::string& label, const Cell& cell) { table_.add(cells(label, cell)); }
    void add_total(const std::string& label, const Cell& cell) { table_.add_total(cells(label, cell)); }
    [[nodiscard]] const std::vector<LayoutResult>& layouts() const { return layouts_; }

private:
    [[nodiscard]] std::vector<std::string> cells(const std::string& label, const Cell& cell) const {
        std::vector<std::string> result = {label};
        for (const LayoutResult& layout : layouts_)
            result.push_back(layout.feasible() ? cell(layout) : "-");
        return result;
    }

    TextTable& table_;
    const std::vector<LayoutResult>& layouts_;
};

/// The layout's name over as many lines as keep it within 13 columns.
std::string column_heading(const LayoutResult& layout) {
    std::string heading;
    for (const std::string& line : wrapped(name_of(layout.layout), 13))
        heading += (heading.empty() ? "" : "\n") + line;
    return heading;
}

bool occurs(const std::vector<LayoutResult>& layouts, Category category) {
    return std::any_of(layouts.begin(), layouts.end(),
                       [category](const LayoutResult& layout) { return layout.bill.total(category) != Money(); });
}

void add_cost_rows(RowFiller& rows, const Scenario& scenario, const Comparison& comparison) {
    const Currency& currency = scenario.currency;
    for (int c = 0; c < category_count; ++c) {
        const auto category = static_cast<Category>(c);
        if (!occurs(comparison.layouts, category)) continue;
        rows.add(fmt::format("{} ({})", name_of(category), currency.code),
                 [&](const LayoutResult& layout) { return figure(layout.bill.total(category), currency); });
    }
    rows.add_total(fmt::format("Total ({})", currency.code),
                   [&](const LayoutResult& layout) { return figure(layout.total, currency); });
    if (!comparison.cheapest) return;
    const Money least = comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)].total;
    rows.add("Above the cheapest (%)", [&](const LayoutResult& layout) {
        if (least == Money()) return std::string("-");
        const Money above = layout.total - least;
        return figure(100.0 * static_cast<double>(above.minor()) / static_cast<double>(least.minor()), 1);
    });
    rows.add(fmt::format("Proven lower bound ({})", currency.code),
             [&](const LayoutResult& layout) { return figure(layout.bound, currency); });
    rows.add("Proven gap (%)", [](const LayoutResult& layout) { return figure(100.0 * layout.gap, 2); });
}

void add_measure_rows(RowFiller& rows, const Scenario& scenario) {
    const std::string unit = fmt::format(" ({})", length_unit(scenario));
    rows.add_total("Labour (hours)", [](const LayoutResult& layout) { return figure(layout.bill.labour()); });
    rows.add("Trench dug" + unit, [&](const LayoutResult& layout) { return figure(layout.trench, scenario); });
    rows.add("Existing ducts, poles" + unit,
             [&](const LayoutResult& layout) { return figure(layout.reused, scenario); });
    rows.add("Cable ordered" + unit,
             [&](const LayoutResult& layout) { return figure(cable_ordered(layout), scenario); });
    rows.add("Number of enclosures", [](const LayoutResult& layout) {
        return figure(static_cast<std::int64_t>(layout.plan->enclosures.size()));
    });
    rows.add("Strands leaving the hub", [&](const LayoutResult& layout) {
        return figure(std::int64_t{strands_leaving_hub(scenario, *layout.plan)});
    });
    const bool either = std::any_of(rows.layouts().begin(), rows.layouts().end(),
                                    [](const LayoutResult& layout) { return layout.other.has_value(); });
    if (either) {
        rows.add("Strands a link", [](const LayoutResult& layout) {
            return figure(std::int64_t{strands_per_link(layout.plan->strand_use)});
        });
        rows.add(fmt::format("Total, other strand use ({})", scenario.currency.code), [&](const LayoutResult& layout) {
            const bool known = layout.other && layout.other->total;
            return known ? figure(*layout.other->total, scenario.currency) : std::string("-");
        });
    }
    rows.add("Buildings lost, worst cut", [](const LayoutResult& layout) {
        return figure(static_cast<std::int64_t>(layout.worst_cut.lost.size()));
    });
    rows.add("Worst outage (min a year)",
             [](const LayoutResult& layout) { return figure(layout.failures.worst_minutes, 1); });
    rows.add("Worst link margin (dB)", [](const LayoutResult& layout) {
        return layout.worst_margin_db ? figure(*layout.worst_margin_db, 2) : std::string("-");
    });
}

}  // namespace

int strands_leaving_hub(const Scenario& scenario, const Plan& plan) {
    int strands = 0;
    for (const PlannedCable& cable : plan.cables) {
        if (cable.from != scenario.hub.place) continue;
        strands += product_of(scenario, cable).strands;
    }
    return strands;
}

TextTable layouts_table(const Scenario& scenario, const Comparison& comparison) {
    std::vector<Column> columns = {{"", Align::left, true}};
    for (const LayoutResult& layout : comparison.layouts)
        columns.push_back({column_heading(layout), Align::right});
    TextTable table(columns);
    RowFiller rows(table, comparison.layouts);
    add_cost_rows(rows, scenario, comparison);
    add_measure_rows(rows, scenario);
    return table;
}

std::vector<std::string> layout_remarks(const Comparison& comparison) {
    std::vector<std::string> remarks;
    for (const LayoutResult& layout : comparison.layouts) {
        if (!layout.feasible()) {
            remarks.push_back(
                shown(fmt::format("{} cannot be built: {}", name_of(layout.layout), layout.reason) + "."));
        }
        if (layout.interrupted) {
            remarks.push_back(fmt::format("{}: the search was stopped early; the gap is what was proven by then.",
                                          name_of(layout.layout)));
        }
    }
    return remarks;
}

}  // namespace spadework::report
