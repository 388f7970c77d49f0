#include "report/sheets_csv.hpp"

#include "report/csv_writer.hpp"
#include "report/lookup.hpp"
#include "report/sheet_columns.hpp"
#include "sheets/cable_order.hpp"
#include "sheets/crew_hours.hpp"
#include "sheets/materials.hpp"
#include "sheets/pull_schedule.hpp"
#include "sheets/termination_choice.hpp"

namespace spadework::report {

namespace {

std::string ids_of_cables(const Plan& plan, const std::vector<int>& cables) {
    std::string ids;
    for (const int c : cables)
        ids += (ids.empty() ? "" : " ") + plan.cables[static_cast<std::size_t>(c)].id;
    return ids;
}

const std::string& product_id(const Scenario& scenario, int product) {
    return scenario.catalogue.cables[static_cast<std::size_t>(product)].id;
}

/// From the product to the currency; the length stays blank where there is none.
void write_order_row(CsvWriter& csv, const Scenario& scenario, const OrderRow& row, const std::string& product) {
    csv.text(product).whole(row.pieces).number(row.length == Length() ? "" : plain(row.length, scenario));
    csv.number(plain(row.ordered, scenario)).number(plain(row.needed, scenario));
    csv.number(decimal_text(row.amount, scenario.currency)).number(decimal_text(row.waste, scenario.currency));
    csv.text(scenario.currency.code);
}

/// The same cables cut from reels, where that is cheaper; the difference of the totals is what it saves.
void write_reels(CsvWriter& csv, const Scenario& scenario, const LayoutResult& layout, const CableOrder& order) {
    if (order.reels.empty()) return;
    for (const OrderRow& reel : order.reels) {
        csv.text(id_of(layout.layout)).text("reels");
        write_order_row(csv, scenario, reel, product_id(scenario, reel.product));
        csv.text(ids_of_cables(*layout.plan, reel.cables)).end_row();
    }
    csv.text(id_of(layout.layout)).text("reels");
    write_order_row(csv, scenario, order.total_of_reels(), "total");
    csv.text("").end_row();
}

void write_termination(CsvWriter& csv, const TerminationCost& cost, const Currency& currency) {
    csv.number(decimal_text(cost.cost, currency)).number(plain(cost.time.hours(), 3));
}

}  // namespace

std::string materials_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "category", "item", "quantity", "unit", "unit_price", "amount", "currency"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan&) {
        Money total;
        for (const Material& material : materials(layout.bill)) {
            csv.text(id_of(layout.layout)).text(id_of(material.category)).text(material.item);
            csv.number(plain(material.quantity, 3)).text(material.unit);
            csv.number(plain(material.unit_price, scenario.currency));
            csv.number(decimal_text(material.amount, scenario.currency)).text(scenario.currency.code).end_row();
            total += material.amount;
        }
        csv.text(id_of(layout.layout)).text("total").text("").text("").text("").text("");
        csv.number(decimal_text(total, scenario.currency)).text(scenario.currency.code).end_row();
    });
    return csv.table();
}

std::string cable_order_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "ordered_as", "product", "pieces", with_unit("length", scenario),
                   with_unit("ordered", scenario), with_unit("needed", scenario), "amount", "waste", "currency",
                   "cables"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        const CableOrder order = cable_order(scenario, plan);
        for (const OrderRow& row : order.rows) {
            csv.text(id_of(layout.layout)).text("lengths");
            write_order_row(csv, scenario, row, product_id(scenario, row.product));
            csv.text(ids_of_cables(plan, row.cables)).end_row();
        }
        csv.text(id_of(layout.layout)).text("lengths");
        write_order_row(csv, scenario, order.total(), "total");
        csv.text("").end_row();
        write_reels(csv, scenario, layout, order);
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
