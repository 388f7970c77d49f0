#include "report/sheets_csv.hpp"

#include <map>
#include <tuple>

#include "report/csv_writer.hpp"
#include "report/lookup.hpp"
#include "report/sheet_columns.hpp"
#include "sheets/cable_order.hpp"
#include "sheets/crew_hours.hpp"
#include "sheets/pull_schedule.hpp"
#include "sheets/termination_choice.hpp"

namespace spadework::report {

namespace {

/// One thing to buy: lines of the bill for it, together.
struct Material {
    double quantity = 0;
    Money amount;
};
/// Category, item, unit, price of a unit in thousandths: what makes lines one material.
using MaterialKey = std::tuple<Category, std::string, std::string, std::int64_t>;

bool is_bought(const CostLine& line) {
    switch (line.category) {
        case Category::ducts:
        case Category::cable:
        case Category::terminations:
        case Category::enclosures:
        case Category::optics:
        case Category::endpoint_gear:
        case Category::hub_gear:
            return line.labour == WorkTime();
        default:
            return false;
    }
}

std::map<MaterialKey, Material> materials_of(const Bill& bill) {
    std::map<MaterialKey, Material> materials;
    for (const CostLine& line : bill.lines) {
        if (!is_bought(line)) continue;
        Material& material = materials[{line.category, line.item, line.unit, line.unit_price.thousandths()}];
        material.quantity += line.quantity;
        material.amount += line.amount;
    }
    return materials;
}

std::string ids_of_cables(const Plan& plan, const std::vector<int>& cables) {
    std::string ids;
    for (const int c : cables)
        ids += (ids.empty() ? "" : " ") + plan.cables[static_cast<std::size_t>(c)].id;
    return ids;
}

void write_termination(CsvWriter& csv, const TerminationCost& cost, const Currency& currency) {
    csv.number(decimal_text(cost.cost, currency)).number(plain(cost.time.hours(), 3));
}

}  // namespace

std::string materials_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "category", "item", "quantity", "unit", "unit_price", "amount", "currency"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan&) {
        Money total;
        for (const auto& [key, material] : materials_of(layout.bill)) {
            const auto& [category, item, unit, price] = key;
            csv.text(id_of(layout.layout)).text(id_of(category)).text(item).number(plain(material.quantity, 3));
            csv.text(unit).number(plain(UnitPrice::from_thousandths(price), scenario.currency));
            csv.number(decimal_text(material.amount, scenario.currency)).text(scenario.currency.code).end_row();
            total += material.amount;
        }
        csv.text(id_of(layout.layout)).text("total").text("").text("").text("").text("");
        csv.number(decimal_text(total, scenario.currency)).text(scenario.currency.code).end_row();
    });
    return csv.table();
}

std::string cable_order_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "product", "pieces", with_unit("length", scenario), with_unit("ordered", scenario),
                   with_unit("needed", scenario), "amount", "waste", "currency", "cables"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        const CableOrder order = cable_order(scenario, plan);
        for (const OrderRow& row : order.rows) {
            csv.text(id_of(layout.layout)).text(scenario.catalogue.cables[static_cast<std::size_t>(row.product)].id);
            csv.whole(row.pieces).number(plain(row.length, scenario)).number(plain(row.ordered, scenario));
            csv.number(plain(row.needed, scenario)).number(decimal_text(row.amount, scenario.currency));
            csv.number(decimal_text(row.waste, scenario.currency)).text(scenario.currency.code);
            csv.text(ids_of_cables(plan, row.cables)).end_row();
        }
        csv.text(id_of(layout.layout)).text("total").whole(static_cast<std::int64_t>(plan.cables.size())).text("");
        csv.number(plain(order.ordered, scenario)).number(plain(order.needed, scenario));
        csv.number(decimal_text(order.amount, scenario.currency)).number(decimal_text(order.waste, scenario.currency));
        csv.text(scenario.currency.code).text("").end_row();
    });
    return csv.table();
}

std::string pull_schedule_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "cable", "stretch", "from", "to", with_unit("length", scenario), "sharp_bends",
                   "turned_degrees", "least_radius_pulling_mm", "least_radius_installed_mm", "most_tension_n",
                   "tension_from"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const CablePull& pull : pull_schedule(scenario, plan)) {
            for (std::size_t s = 0; s < pull.stretches.size(); ++s) {
                const PullStretch& stretch = pull.stretches[s];
                csv.text(id_of(layout.layout)).text(plan.cables[static_cast<std::size_t>(pull.cable)].id);
                csv.whole(static_cast<std::int64_t>(s) + 1).text(place_at(scenario, stretch.from).id);
                csv.text(place_at(scenario, stretch.to).id).number(plain(stretch.length, scenario));
                csv.whole(stretch.bends).number(plain(stretch.turned_degrees, 0));
                csv.whole(pull.radius_pulling.millimetres()).whole(pull.radius_installed.millimetres());
                csv.number(plain(pull.most_tension_n, 1)).text(pull.tension_source).end_row();
            }
        }
    });
    return csv.table();
}

std::string crew_hours_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "trade", "task", "hours", "crew_days", "labour_amount", "currency"});
    const double day = scenario.labour.hours_per_day;
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan&) {
        const CrewHours hours = crew_hours(layout.bill, scenario.labour);
        Money total;
        for (const CrewTask& task : hours.tasks) {
            csv.text(id_of(layout.layout)).text(name_of(task.trade)).text(task.task);
            csv.number(plain(task.time.hours(), 3)).number(plain(task.time.hours() / day, 3));
            csv.number(decimal_text(task.amount, scenario.currency)).text(scenario.currency.code).end_row();
            total += task.amount;
        }
        csv.text(id_of(layout.layout)).text("total").text("").number(plain(hours.total.hours(), 3));
        csv.number(plain(hours.total.hours() / day, 3)).number(decimal_text(total, scenario.currency));
        csv.text(scenario.currency.code).end_row();
    });
    return csv.table();
}

std::string terminations_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "cable", "strand_ends", "factory_cost", "factory_hours", "spliced_cost", "spliced_hours",
                   "currency"});
    const Currency& currency = scenario.currency;
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        const TerminationChoice choice = termination_choice(scenario, plan);
        for (const CableTermination& one : choice.cables) {
            const PlannedCable& cable = plan.cables[static_cast<std::size_t>(one.cable)];
            csv.text(id_of(layout.layout)).text(cable.id).whole(2 * cable.need.in_use);
            write_termination(csv, one.factory, currency);
            write_termination(csv, one.spliced, currency);
            csv.text(currency.code).end_row();
        }
        csv.text(id_of(layout.layout)).text("total").whole(choice.strand_ends);
        write_termination(csv, choice.factory, currency);
        write_termination(csv, choice.spliced, currency);
        csv.text(currency.code).end_row();
    });
    return csv.table();
}

std::vector<NamedTable> sheet_tables(const Scenario& scenario, const Comparison& comparison) {
    return {
        {"materials.csv", materials_csv(scenario, comparison)},
        {"cable-order.csv", cable_order_csv(scenario, comparison)},
        {"strand-map.csv", strand_map_csv(scenario, comparison)},
        {"labels.csv", labels_csv(scenario, comparison)},
        {"pull-schedule.csv", pull_schedule_csv(scenario, comparison)},
        {"crew-hours.csv", crew_hours_csv(scenario, comparison)},
        {"terminations.csv", terminations_csv(scenario, comparison)},
        {"test-sheet.csv", test_sheet_csv(scenario, comparison)},
        {"trace-events.csv", trace_events_csv(scenario, comparison)},
    };
}

}  // namespace spadework::report
