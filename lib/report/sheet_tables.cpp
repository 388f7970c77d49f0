#include "report/sheet_tables.hpp"

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"
#include "sheets/cable_order.hpp"
#include "sheets/crew_hours.hpp"
#include "sheets/materials.hpp"
#include "sheets/termination_choice.hpp"

namespace spadework::report {

namespace {

std::string count_figure(int count) {
    return figure(std::int64_t{count});
}

std::string quantity_figure(const Material& material) {
    const bool whole = material.quantity == static_cast<double>(static_cast<std::int64_t>(material.quantity));
    return figure(material.quantity, whole ? 0 : 1);
}

std::string ids_of_cables(const Plan& plan, const std::vector<int>& cables) {
    std::string ids;
    for (const int c : cables)
        ids += (ids.empty() ? "" : ", ") + shown(plan.cables[static_cast<std::size_t>(c)].id);
    return ids;
}

TextTable order_heading(const Scenario& scenario) {
    const std::string unit = length_unit(scenario);
    return TextTable({{"Cable", Align::left, true},
                      {"Pieces", Align::right},
                      {fmt::format("Length\n({})", unit), Align::right},
                      {fmt::format("Ordered\n({})", unit), Align::right},
                      {fmt::format("Needed\n({})", unit), Align::right},
                      {fmt::format("Amount\n({})", scenario.currency.code), Align::right},
                      {fmt::format("For length\nbeyond need\n({})", scenario.currency.code), Align::right},
                      {"For", Align::left, true}});
}

std::vector<std::string> order_cells(const Scenario& scenario, const OrderRow& row, std::string name,
                                     std::string cables) {
    return {std::move(name),
            count_figure(row.pieces),
            row.length == Length() ? "" : figure(row.length, scenario),
            figure(row.ordered, scenario),
            figure(row.needed, scenario),
            figure(row.amount, scenario.currency),
            figure(row.waste, scenario.currency),
            std::move(cables)};
}

TextTable order_table(const Scenario& scenario, const Plan& plan, const std::vector<OrderRow>& rows,
                      const OrderRow& total) {
    TextTable table = order_heading(scenario);
    for (const OrderRow& row : rows) {
        const std::string& id = scenario.catalogue.cables[static_cast<std::size_t>(row.product)].id;
        table.add(order_cells(scenario, row, shown(id), ids_of_cables(plan, row.cables)));
    }
    if (!rows.empty()) table.add_total(order_cells(scenario, total, "Total", ""));
    return table;
}

std::string days_figure(const Scenario& scenario, WorkTime time) {
    return figure(time.hours() / scenario.labour.hours_per_day, 1);
}

/// A sum for a trade with several tasks.
void add_trade_sum(TextTable& table, const Scenario& scenario, const CrewHours& hours, Trade trade) {
    int tasks = 0;
    Money amount;
    for (const CrewTask& task : hours.tasks) {
        if (task.trade != trade) continue;
        ++tasks;
        amount += task.amount;
    }
    if (tasks < 2) return;
    table.add_sum({"", fmt::format("{}, all", name_of(trade)), figure(hours.of(trade)),
                   days_figure(scenario, hours.of(trade)), figure(amount, scenario.currency)});
}

}  // namespace

TextTable materials_table(const Scenario& scenario, const LayoutResult& layout) {
    const std::string& code = scenario.currency.code;
    TextTable table({{"Category", Align::left, true},
                     {"Item", Align::left, true},
                     {"Quantity", Align::right},
                     {"Unit", Align::left},
                     {fmt::format("Unit price\n({})", code), Align::right},
                     {fmt::format("Amount\n({})", code), Align::right}});
    const std::vector<Material> all = materials(layout.bill);
    Money total;
    Money of_category;
    for (std::size_t m = 0; m < all.size(); ++m) {
        const Material& material = all[m];
        const bool first = m == 0 || all[m - 1].category != material.category;
        const bool last = m + 1 == all.size() || all[m + 1].category != material.category;
        table.add({first ? name_of(material.category) : "", shown(material.item), quantity_figure(material),
                   shown(material.unit), figure(material.unit_price, scenario.currency),
                   figure(material.amount, scenario.currency)});
        total += material.amount;
        of_category = first ? material.amount : of_category + material.amount;
        if (last && !first) {
            table.add_sum({"", fmt::format("{}, all", name_of(material.category)), "", "", "",
                           figure(of_category, scenario.currency)});
        }
    }
    table.add_total({"Total", "", "", "", "", figure(total, scenario.currency)});
    return table;
}

TextTable cable_order_table(const Scenario& scenario, const Plan& plan) {
    const CableOrder order = cable_order(scenario, plan);
    return order_table(scenario, plan, order.rows, order.total());
}

TextTable reel_table(const Scenario& scenario, const Plan& plan) {
    const CableOrder order = cable_order(scenario, plan);
    return order_table(scenario, plan, order.reels, order.total_of_reels());
}

TextTable crew_hours_table(const Scenario& scenario, const LayoutResult& layout) {
    TextTable table({{"Trade", Align::left, true},
                     {"Task", Align::left, true},
                     {"Hours", Align::right},
                     {fmt::format("Crew days\nof {} h", figure(scenario.labour.hours_per_day, 1)), Align::right},
                     {fmt::format("Labour\n({})", scenario.currency.code), Align::right}});
    const CrewHours hours = crew_hours(layout.bill, scenario.labour);
    Money total;
    for (std::size_t t = 0; t < hours.tasks.size(); ++t) {
        const CrewTask& task = hours.tasks[t];
        const bool first = t == 0 || hours.tasks[t - 1].trade != task.trade;
        table.add({first ? name_of(task.trade) : "", shown(task.task), figure(task.time),
                   days_figure(scenario, task.time), figure(task.amount, scenario.currency)});
        const bool last = t + 1 == hours.tasks.size() || hours.tasks[t + 1].trade != task.trade;
        if (last) add_trade_sum(table, scenario, hours, task.trade);
        total += task.amount;
    }
    table.add_total(
        {"Total", "", figure(hours.total), days_figure(scenario, hours.total), figure(total, scenario.currency)});
    return table;
}

TextTable termination_table(const Scenario& scenario, const Plan& plan) {
    const std::string& code = scenario.currency.code;
    TextTable table({{"Cable", Align::left, true},
                     {"Strand ends", Align::right},
                     {fmt::format("Factory-made\n({})", code), Align::right},
                     {"Factory-made\n(hours)", Align::right},
                     {fmt::format("Spliced\n({})", code), Align::right},
                     {"Spliced\n(hours)", Align::right}});
    const TerminationChoice choice = termination_choice(scenario, plan);
    const auto cells = [&](std::string name, int ends, const TerminationCost& factory, const TerminationCost& spliced) {
        return std::vector<std::string>{std::move(name),
                                        count_figure(ends),
                                        figure(factory.cost, scenario.currency),
                                        figure(factory.time),
                                        figure(spliced.cost, scenario.currency),
                                        figure(spliced.time)};
    };
    for (const CableTermination& one : choice.cables) {
        const PlannedCable& cable = plan.cables[static_cast<std::size_t>(one.cable)];
        table.add(cells(shown(cable.id), 2 * cable.need.in_use, one.factory, one.spliced));
    }
    table.add_total(cells("Total", choice.strand_ends, choice.factory, choice.spliced));
    return table;
}

std::string termination_sentence(const Scenario& scenario, const Plan& plan) {
    const TerminationChoice choice = termination_choice(scenario, plan);
    const bool factory_is_cheaper = choice.factory.cost <= choice.spliced.cost;
    const TerminationCost& cheap = factory_is_cheaper ? choice.factory : choice.spliced;
    const TerminationCost& dear = factory_is_cheaper ? choice.spliced : choice.factory;
    std::string text = fmt::format(
        "Cable, ends and joints cost {} {} with ends {} and {} more with ends {}; plugging takes {} hours, splicing "
        "{}. "
        "The bill is for ends {}.",
        scenario.currency.code, figure(cheap.cost, scenario.currency),
        factory_is_cheaper ? "made in the factory" : "spliced on site",
        figure(dear.cost - cheap.cost, scenario.currency),
        factory_is_cheaper ? "spliced on site" : "made in the factory", figure(choice.factory.time),
        figure(choice.spliced.time),
        scenario.rules.termination == Termination::factory ? "made in the factory" : "spliced on site");
    if (!choice.spliced_fails.empty() && scenario.rules.termination == Termination::factory) {
        text += fmt::format(" Spliced, {} of {} links would lose more than their optics carry.",
                            choice.spliced_fails.size(), plan.links.size());
    }
    return text;
}

}  // namespace spadework::report
