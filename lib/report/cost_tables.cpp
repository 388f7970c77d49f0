#include "report/cost_tables.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

/// Adds lines of one item up, in the order in which the items first occur, hours after what is bought.
std::vector<CostLine> by_item(const Bill& bill, Category category) {
    std::vector<CostLine> items;
    for (const CostLine& line : bill.lines) {
        if (line.category != category) continue;
        const auto same = std::find_if(items.begin(), items.end(), [&](const CostLine& item) {
            return item.item == line.item && item.unit == line.unit && item.unit_price == line.unit_price;
        });
        if (same == items.end()) {
            items.push_back(line);
            continue;
        }
        same->quantity += line.quantity;
        same->amount += line.amount;
        same->labour += line.labour;
    }
    std::stable_partition(items.begin(), items.end(), [](const CostLine& item) { return item.unit != "h"; });
    return items;
}

std::string quantity_figure(const CostLine& line) {
    if (line.unit == "m" || line.unit == "ft") return figure(line.quantity, 1);
    if (line.unit == "h") return figure(line.quantity, 2);
    return figure(line.quantity,
                  line.quantity == static_cast<double>(static_cast<std::int64_t>(line.quantity)) ? 0 : 3);
}

std::string hours(WorkTime labour) {
    return labour == WorkTime() ? "" : figure(labour);
}

void add_category(TextTable& table, const Scenario& scenario, const Bill& bill, Category category) {
    const std::vector<CostLine> items = by_item(bill, category);
    std::string label = name_of(category);
    WorkTime labour;
    for (const CostLine& item : items) {
        const bool priced = item.unit != "%";
        table.add({label, shown(item.item), quantity_figure(item), shown(item.unit),
                   priced ? figure(item.unit_price, scenario.currency) : "", hours(item.labour),
                   figure(item.amount, scenario.currency)});
        labour += item.labour;
        label.clear();
    }
    if (items.size() > 1) {
        table.add_sum({"", fmt::format("{}, all", name_of(category)), "", "", "", hours(labour),
                       figure(bill.total(category), scenario.currency)});
    }
}

}  // namespace

TextTable cost_table(const Scenario& scenario, const Bill& bill) {
    const std::string& code = scenario.currency.code;
    TextTable table({{"Category", Align::left, true},
                     {"Item", Align::left, true},
                     {"Quantity", Align::right},
                     {"Unit", Align::left},
                     {fmt::format("Unit price\n({})", code), Align::right},
                     {"Labour\n(hours)", Align::right},
                     {fmt::format("Amount\n({})", code), Align::right}});
    for (int c = 0; c < category_count; ++c)
        add_category(table, scenario, bill, static_cast<Category>(c));
    table.add_total({"Total", "", "", "", "", figure(bill.labour()), figure(bill.total(), scenario.currency)});
    return table;
}

}  // namespace spadework::report
