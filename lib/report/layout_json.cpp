#include "report/layout_json.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "checks/cautions.hpp"
#include "comparison/metres.hpp"
#include "report/failure_tables.hpp"
#include "report/lookup.hpp"
#include "strands/strand_need.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

void write_buildings(JsonWriter& json, const Scenario& scenario, const std::vector<BuildingIndex>& buildings) {
    json.begin_list(Shape::one_line);
    for (const BuildingIndex building : buildings)
        json.text(building_at(scenario, building).id);
    json.end();
}

void write_lengths(JsonWriter& json, const char* name, const std::map<std::string, Length>& lengths) {
    json.key(name).begin_object();
    for (const auto& [key, length] : lengths)
        json.key(key).metres(length);
    json.end();
}

/// Lengths by ground and by method of what is dug, which sum to trench_m; of what is reused, which sum to reused_m.
void write_trench_metres(JsonWriter& json, const Scenario& scenario, const LayoutResult& result) {
    std::map<std::string, Length> by_ground;
    std::map<std::string, Length> by_method;
    std::map<std::string, Length> reused;
    for (const Step& step : result.plan ? result.plan->trenches : std::vector<Step>()) {
        const Way way = way_of(scenario, step);
        const Length length = segment_at(scenario, step.segment).length;
        if (is_dug(way.method->kind)) {
            by_ground[way.ground] += length;
            by_method[id_of(way.method->kind)] += length;
        } else {
            reused[id_of(way.method->kind)] += length;
        }
    }
    write_lengths(json, "trench_m_by_ground", by_ground);
    write_lengths(json, "trench_m_by_method", by_method);
    write_lengths(json, "reused_m_by_kind", reused);
}

void write_cable_metres(JsonWriter& json, const LayoutResult& result) {
    json.key("cable_m_by_strands").begin_object();
    for (const auto& [strands, metres] : result.cable_by_strands) {
        json.key(std::to_string(strands)).begin_object(Shape::one_line);
        json.key("route_m").metres(metres.route);
        json.key("with_slack_m").metres(metres.with_slack);
        json.key("ordered_m").metres(metres.ordered);
        json.end();
    }
    json.end();
}

void write_enclosures(JsonWriter& json, const Scenario& scenario, const Plan& plan) {
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        json.begin_object(Shape::one_line);
        json.key("place").text(place_at(scenario, enclosure.place).id);
        json.key("strands").whole(trunk_strands(scenario, plan, enclosure));
        json.key("strands_in_use").whole(enclosure.need.in_use);
        json.key("adapters").whole(adapters_of(scenario, enclosure));
        json.key("serves");
        write_buildings(json, scenario, enclosure.serves);
        json.end();
    }
}

void write_trenches(JsonWriter& json, const Scenario& scenario, const Plan& plan) {
    for (const Step& step : plan.trenches) {
        const Way way = way_of(scenario, step);
        json.begin_object(Shape::one_line);
        json.key("segment").text(segment_at(scenario, step.segment).id);
        json.key("ground").text(way.ground);
        json.key("method").text(way.method->id);
        json.key("dug").flag(is_dug(way.method->kind));
        json.key("length_m").metres(segment_at(scenario, step.segment).length);
        json.key("cost").money(way.opening, scenario.currency);
        json.end();
    }
}

void write_cables(JsonWriter& json, const Scenario& scenario, const Plan& plan) {
    for (const PlannedCable& cable : plan.cables) {
        json.begin_object(Shape::one_line);
        json.key("id").text(cable.id);
        json.key("role").text(id_of(cable.role));
        json.key("product").text(product_of(scenario, cable).id);
        json.key("strands").whole(product_of(scenario, cable).strands);
        json.key("strands_in_use").whole(cable.need.in_use);
        json.key("from").text(place_at(scenario, cable.from).id);
        json.key("to").text(place_at(scenario, cable.to).id);
        json.key("segments").begin_list(Shape::one_line);
        for (const Step& step : cable.steps)
            json.text(segment_at(scenario, step.segment).id);
        json.end();
        json.key("route_m").metres(cable.lengths.route);
        json.key("with_slack_m").metres(cable.lengths.with_slack);
        json.key("ordered_m").metres(cable.lengths.ordered);
        json.end();
    }
}

void write_text_or_null(JsonWriter& json, const char* name, const std::optional<std::string>& text) {
    write_or_null(json, name, text, [&](const std::string& one) { json.text(one); });
}

void write_attenuators(JsonWriter& json, const Scenario& scenario, const PlannedLink& link) {
    const auto id = [&](std::optional<int> attenuator) -> std::optional<std::string> {
        if (!attenuator) return std::nullopt;
        return scenario.catalogue.attenuators[static_cast<std::size_t>(*attenuator)].id;
    };
    write_text_or_null(json, "attenuator_at_start", id(link.attenuator_at_start));
    write_text_or_null(json, "attenuator_at_end", id(link.attenuator_at_end));
}

/// The next rate and whether the glass carries it; what is left, or the limit that it fails and by how much.
void write_next_rate(JsonWriter& json, const NextRate& next) {
    json.key("next_rate").begin_object(Shape::one_line);
    write_text_or_null(json, "rate", next.rate ? std::optional(to_text(*next.rate)) : std::nullopt);
    if (next.rate) {
        json.key("optic").text(next.optic);
        json.key("in_catalogue").flag(next.in_catalogue);
        json.key("passes").flag(next.passes);
        if (next.passes) {
            json.key("with_attenuators").flag(next.attenuated);
            json.key("margin_db").number(next.margin_db, 4);
        } else {
            json.key("limit").text(next.limit);
            json.key("short_by").number(next.short_by, 4);
            json.key("unit").text(next.unit);
        }
    }
    json.end();
}

void write_links(JsonWriter& json, const Scenario& scenario, const LayoutResult& result) {
    for (const LinkBudget& budget : result.link_budgets) {
        const PlannedLink& link = result.plan->links[static_cast<std::size_t>(budget.link)];
        json.begin_object(Shape::one_line);
        json.key("building").text(building_at(scenario, link.building).id);
        json.key("from").text(link_origin(scenario, link));
        json.key("number").whole(link.number);
        json.key("rate").text(to_text(link.rate));
        json.key("optic").text(optic_of(scenario, link).id);
        write_attenuators(json, scenario, link);
        json.key("strands").whole(link.strands);
        json.key("glass_m").metres(link.glass);
        json.key("loss_db").number(budget.worse().loss_db, 4);
        json.key("limit_db").number(budget.worse().limit_db, 4);
        json.key("margin_db").number(budget.worse().margin_db, 4);
        json.key("longest_glass_m").metres(budget.longest_glass);
        write_next_rate(json, result.next_rates[static_cast<std::size_t>(budget.link)]);
        json.end();
    }
}

void write_findings(JsonWriter& json, const Findings& findings) {
    json.key("findings").begin_list();
    for (const Finding& finding : findings) {
        json.begin_object(Shape::one_line);
        json.key("kind").text(finding.kind);
        json.key("severity").text(id_of(finding.severity));
        json.key("where").text(finding.where);
        json.key("what").text(finding.what);
        json.key("measured").number(finding.measured, 6);
        json.key("limit").number(finding.limit, 6);
        json.key("unit").text(finding.unit);
        json.end();
    }
    json.end();
}

void write_cautions(JsonWriter& json, const Scenario& scenario, const Plan& plan) {
    for (const Caution& caution : cautions(scenario, plan)) {
        json.begin_object(Shape::one_line);
        json.key("id").text(caution.id);
        json.key("text").text(caution.text);
        json.key("source").text(caution.source);
        json.end();
    }
}

/// A list member that `write` fills when there is a plan.
template <typename Write>
void write_list(JsonWriter& json, const char* name, const LayoutResult& result, Write write) {
    json.key(name).begin_list();
    if (result.plan) write();
    json.end();
}

void write_worst(JsonWriter& json, const Scenario& scenario, const LayoutResult& result) {
    write_or_null(json, "worst_margin_db", result.worst_margin_db, [&](double margin) { json.number(margin, 4); });
    json.key("worst_cut").begin_object(Shape::one_line);
    json.key("what").text(result.worst_cut.what);
    json.key("buildings_lost");
    write_buildings(json, scenario, result.worst_cut.lost);
    json.end();
}

/// The strand use of the plan, and where the rules leave it to the price what the other comes to.
void write_strand_use(JsonWriter& json, const Scenario& scenario, const LayoutResult& result) {
    write_text_or_null(json, "strand_use",
                       result.plan ? std::optional<std::string>(name_of(result.plan->strand_use)) : std::nullopt);
    if (!result.other) return;
    json.key("other_strand_use").begin_object(Shape::one_line);
    json.key("strand_use").text(name_of(result.other->use));
    write_or_null(json, "total_cost", result.other->total,
                  [&](const Money& total) { json.money(total, scenario.currency); });
    json.key("reason").text(result.other->reason);
    json.end();
}

}  // namespace

void write_totals(JsonWriter& json, const Scenario& scenario, const LayoutResult& result) {
    if (!result.feasible()) {
        for (const char* name : {"total_cost", "lower_bound", "gap"})
            json.key(name).null();
        json.key("cost_by_category").begin_object();
        json.end();
        for (const char* name : {"labour_hours", "trench_m", "reused_m"})
            json.key(name).null();
        return;
    }
    json.key("total_cost").money(result.total, scenario.currency);
    json.key("lower_bound").money(result.bound, scenario.currency);
    json.key("gap").number(result.gap, 6);
    json.key("cost_by_category").begin_object();
    for (int c = 0; c < category_count; ++c) {
        const auto category = static_cast<Category>(c);
        json.key(id_of(category)).money(result.bill.total(category), scenario.currency);
    }
    json.end();
    json.key("labour_hours").number(result.bill.labour().hours(), 4);
    json.key("trench_m").metres(result.trench);
    json.key("reused_m").metres(result.reused);
}

/// What became of an earlier plan's strands, where there was one to keep to.
void write_kept(JsonWriter& json, const std::vector<std::string>& kept) {
    if (kept.empty()) return;
    json.key("kept").begin_list();
    for (const std::string& sentence : kept)
        json.text(sentence);
    json.end();
}

void write_site(JsonWriter& json, const Scenario& scenario) {
    json.key("site").begin_object(Shape::one_line);
    json.key("name").text(scenario.name);
    json.key("digest").text(scenario.digest);
    json.end();
    json.key("currency").text(scenario.currency.code);
}

void write_layout(JsonWriter& json, const Scenario& scenario, const LayoutResult& result) {
    json.begin_object();
    json.key("layout").text(id_of(result.layout));
    json.key("status").text(result.feasible() ? "feasible" : "infeasible");
    json.key("reason").text(result.reason);
    json.key("interrupted").flag(result.interrupted);
    write_strand_use(json, scenario, result);
    write_totals(json, scenario, result);
    write_trench_metres(json, scenario, result);
    write_cable_metres(json, result);
    write_worst(json, scenario, result);
    if (result.feasible()) write_failures(json, scenario, result);
    write_list(json, "enclosures", result, [&] { write_enclosures(json, scenario, *result.plan); });
    write_list(json, "trenches", result, [&] { write_trenches(json, scenario, *result.plan); });
    write_list(json, "cables", result, [&] { write_cables(json, scenario, *result.plan); });
    write_list(json, "links", result, [&] { write_links(json, scenario, result); });
    write_kept(json, result.kept);
    write_findings(json, result.findings);
    write_list(json, "cautions", result, [&] { write_cautions(json, scenario, *result.plan); });
    json.end();
}

}  // namespace spadework::report
