#include "report/csv_tables.hpp"

#include <algorithm>
#include <utility>

#include "comparison/metres.hpp"
#include "report/csv_writer.hpp"
#include "report/failure_tables.hpp"
#include "report/figures.hpp"
#include "report/layouts_table.hpp"
#include "report/lookup.hpp"
#include "report/sheet_columns.hpp"
#include "report/sheets_csv.hpp"
#include "strands/strand_need.hpp"

namespace spadework::report {

namespace {

/// "cost_crossings_and_permits".
std::string column_of(Category category) {
    std::string name = std::string("cost_") + id_of(category);
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
}

void write_costs(CsvWriter& csv, const Scenario& scenario, const LayoutResult& layout) {
    const Currency& currency = scenario.currency;
    if (!layout.feasible()) {
        for (int empty = 0; empty < category_count + 3; ++empty)
            csv.number("");
        return;
    }
    csv.number(decimal_text(layout.total, currency));
    csv.number(decimal_text(layout.bound, currency));
    csv.number(plain(100.0 * layout.gap, 4));
    for (int c = 0; c < category_count; ++c)
        csv.number(decimal_text(layout.bill.total(static_cast<Category>(c)), currency));
}

void write_measures(CsvWriter& csv, const Scenario& scenario, const LayoutResult& layout) {
    if (!layout.feasible()) {
        for (int empty = 0; empty < 12; ++empty)
            csv.number("");
        return;
    }
    csv.number(plain(layout.bill.labour().hours(), 4));
    csv.number(plain(layout.trench, scenario));
    csv.number(plain(layout.reused, scenario));
    csv.number(plain(cable_ordered(layout), scenario));
    csv.whole(static_cast<std::int64_t>(layout.plan->enclosures.size()));
    csv.whole(strands_leaving_hub(scenario, *layout.plan));
    csv.whole(static_cast<std::int64_t>(layout.worst_cut.lost.size()));
    csv.number(plain(layout.failures.worst_minutes, 4)).number(plain(layout.failures.mean_minutes, 4));
    csv.number(layout.worst_margin_db ? plain(*layout.worst_margin_db, 4) : "");
    csv.text(name_of(layout.plan->strand_use));
    const bool has_other = layout.other && layout.other->total;
    csv.number(has_other ? decimal_text(*layout.other->total, scenario.currency) : "");
}

}  // namespace

std::string layouts_csv(const Scenario& scenario, const Comparison& comparison) {
    std::vector<std::string> headings = {"layout", "status",      "reason",     "currency",
                                         "total",  "lower_bound", "gap_percent"};
    for (int c = 0; c < category_count; ++c)
        headings.push_back(column_of(static_cast<Category>(c)));
    for (const std::string& heading :
         {std::string("labour_hours"), with_unit("trench", scenario), with_unit("reused", scenario),
          with_unit("cable_ordered", scenario), std::string("enclosures"), std::string("strands_leaving_hub"),
          std::string("buildings_lost_worst_cut"), std::string("outage_minutes_worst"),
          std::string("outage_minutes_mean"), std::string("worst_margin_db"), std::string("strand_use"),
          std::string("other_strand_use_total")}) {
        headings.push_back(heading);
    }
    CsvWriter csv(headings);
    for (const LayoutResult& layout : comparison.layouts) {
        csv.text(id_of(layout.layout)).text(layout.feasible() ? "feasible" : "infeasible").text(layout.reason);
        csv.text(scenario.currency.code);
        write_costs(csv, scenario, layout);
        write_measures(csv, scenario, layout);
        csv.end_row();
    }
    return csv.table();
}

std::string costs_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "category", "item", "quantity", "unit", "unit_price", "amount", "currency", "labour_hours",
                   "cause", "cause_id"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan&) {
        for (const CostLine& line : layout.bill.lines) {
            csv.text(id_of(layout.layout)).text(id_of(line.category)).text(line.item);
            csv.number(plain(line.quantity, 4)).text(line.unit);
            csv.number(line.unit == "%" ? "" : plain(line.unit_price, scenario.currency));
            csv.number(decimal_text(line.amount, scenario.currency)).text(scenario.currency.code);
            csv.number(plain(line.labour.hours(), 4)).text(id_of(line.cause)).text(line.cause_id);
            csv.end_row();
        }
    });
    return csv.table();
}

std::string trenches_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "segment", "from", "to", "ground", "method", "dug", with_unit("length", scenario),
                   with_unit("depth", scenario), "opening_cost", "currency"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const Step& step : plan.trenches) {
            const Segment& segment = segment_at(scenario, step.segment);
            const Way way = way_of(scenario, step);
            csv.text(id_of(layout.layout)).text(segment.id).text(place_at(scenario, segment.from).id);
            csv.text(place_at(scenario, segment.to).id).text(way.ground).text(way.method->id);
            csv.text(is_dug(way.method->kind) ? "yes" : "no").number(plain(segment.length, scenario));
            csv.number(plain(way.method->depth, scenario)).number(decimal_text(way.opening, scenario.currency));
            csv.text(scenario.currency.code).end_row();
        }
    });
    return csv.table();
}

std::string cables_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "cable", "role", "product", "from", "to", "strands", "strands_in_use", "strands_spare",
                   "strands_headroom", with_unit("route", scenario), with_unit("with_slack", scenario),
                   with_unit("ordered", scenario), "joints", "segments"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const PlannedCable& cable : plan.cables) {
            const CableProduct& product = product_of(scenario, cable);
            csv.text(id_of(layout.layout)).text(cable.id).text(id_of(cable.role)).text(product.id);
            csv.text(place_at(scenario, cable.from).id).text(place_at(scenario, cable.to).id).whole(product.strands);
            csv.whole(cable.need.in_use).whole(cable.need.spare).whole(cable.need.headroom);
            csv.number(plain(cable.lengths.route, scenario)).number(plain(cable.lengths.with_slack, scenario));
            csv.number(plain(cable.lengths.ordered, scenario)).whole(cable.lengths.joints);
            std::string segments;
            for (const Step& step : cable.steps)
                segments += (segments.empty() ? "" : " > ") + segment_at(scenario, step.segment).id;
            csv.text(segments).end_row();
        }
    });
    return csv.table();
}

namespace {

std::string attenuator_id(const Scenario& scenario, std::optional<int> attenuator) {
    return attenuator ? scenario.catalogue.attenuators[static_cast<std::size_t>(*attenuator)].id : "";
}

void write_next_rate(CsvWriter& csv, const NextRate& next) {
    csv.text(next.rate ? to_text(*next.rate) : "").text(next.optic);
    csv.text(!next.rate ? "" : next.passes ? "yes" : "no").number(next.passes ? plain(next.margin_db, 4) : "");
    csv.text(next.limit).number(next.limit.empty() ? "" : plain(next.short_by, 4)).text(next.unit);
}

}  // namespace

std::string links_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout",
                   "building",
                   "from",
                   "number",
                   "rate",
                   "optic",
                   "strands",
                   with_unit("fibre", scenario),
                   "mated_pairs",
                   "splices",
                   "loss_to_building_db",
                   "limit_to_building_db",
                   "margin_to_building_db",
                   "loss_to_hub_db",
                   "limit_to_hub_db",
                   "margin_to_hub_db",
                   "attenuator_at_from",
                   "attenuator_at_building",
                   with_unit("longest_fibre", scenario),
                   "next_rate",
                   "next_optic",
                   "next_rate_passes",
                   "next_rate_margin_db",
                   "next_rate_limit",
                   "next_rate_short_by",
                   "next_rate_unit"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const LinkBudget& budget : layout.link_budgets) {
            const PlannedLink& link = plan.links[static_cast<std::size_t>(budget.link)];
            csv.text(id_of(layout.layout)).text(building_at(scenario, link.building).id);
            csv.text(link_origin(scenario, link)).whole(link.number).text(to_text(link.rate));
            csv.text(optic_of(scenario, link).id).whole(link.strands).number(plain(link.glass, scenario));
            csv.whole(link.mated_pairs).whole(link.splices);
            for (const DirectionLoss& loss : {budget.to_building, budget.to_hub}) {
                csv.number(plain(loss.loss_db, 4)).number(plain(loss.limit_db, 4)).number(plain(loss.margin_db, 4));
            }
            csv.text(attenuator_id(scenario, link.attenuator_at_start));
            csv.text(attenuator_id(scenario, link.attenuator_at_end)).number(plain(budget.longest_glass, scenario));
            write_next_rate(csv, layout.next_rates[static_cast<std::size_t>(budget.link)]);
            csv.end_row();
        }
    });
    return csv.table();
}

std::string enclosures_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "place", "products", "adapters", "strands", "strands_in_use", "strands_spare",
                   "strands_headroom", "serves"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const PlannedEnclosure& enclosure : plan.enclosures) {
            csv.text(id_of(layout.layout)).text(place_at(scenario, enclosure.place).id);
            csv.text(products_in_words(scenario, enclosure)).whole(adapters_of(scenario, enclosure));
            csv.whole(trunk_strands(scenario, plan, enclosure)).whole(enclosure.need.in_use);
            csv.whole(enclosure.need.spare).whole(enclosure.need.headroom);
            csv.text(ids_of(scenario, enclosure.serves, " ")).end_row();
        }
    });
    return csv.table();
}

std::string findings_csv(const Scenario&, const Comparison& comparison) {
    CsvWriter csv({"layout", "severity", "kind", "where", "what", "measured", "limit", "unit"});
    for (const LayoutResult& layout : comparison.layouts) {
        for (const Finding& finding : layout.findings) {
            csv.text(id_of(layout.layout)).text(id_of(finding.severity)).text(finding.kind).text(finding.where);
            csv.text(finding.what).number(plain(finding.measured, 6)).number(plain(finding.limit, 6));
            csv.text(finding.unit).end_row();
        }
    }
    return csv.table();
}

std::vector<NamedTable> csv_tables(const Scenario& scenario, const Comparison& comparison) {
    std::vector<NamedTable> tables = {
        {"layouts.csv", layouts_csv(scenario, comparison)},   {"costs.csv", costs_csv(scenario, comparison)},
        {"trenches.csv", trenches_csv(scenario, comparison)}, {"cables.csv", cables_csv(scenario, comparison)},
        {"links.csv", links_csv(scenario, comparison)},       {"enclosures.csv", enclosures_csv(scenario, comparison)},
        {"findings.csv", findings_csv(scenario, comparison)}, {"failures.csv", failures_csv(scenario, comparison)},
    };
    for (NamedTable& sheet : sheet_tables(scenario, comparison))
        tables.push_back(std::move(sheet));
    return tables;
}

}  // namespace spadework::report
