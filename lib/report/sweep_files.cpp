// A sweep as JSON and CSV.

#include <fmt/format.h>

#include "report/csv_writer.hpp"
#include "report/figures.hpp"
#include "report/json_writer.hpp"
#include "report/layout_json.hpp"
#include "report/sweep_report.hpp"
#include "report/sweep_tables.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

void write_input(JsonWriter& json, const SweptInput& input) {
    json.begin_object(Shape::one_line);
    json.key("key").text(input.key);
    json.key("unit").text(input.unit);
    json.key("from").exact(input.from);
    json.key("to").exact(input.to);
    json.key("points").whole(input.points);
    json.end();
}

void write_winner(JsonWriter& json, const char* key, const Sweep& sweep, std::optional<int> winner) {
    write_or_null(json, key, winner,
                  [&](int layout) { json.text(id_of(sweep.layouts[static_cast<std::size_t>(layout)])); });
}

void write_number(JsonWriter& json, const char* key, std::optional<double> number) {
    write_or_null(json, key, number, [&](double value) { json.exact(value); });
}

void write_point(JsonWriter& json, const Scenario& scenario, const Sweep& sweep, const SweptPoint& point) {
    json.begin_object();
    json.key("at").begin_list(Shape::one_line);
    json.exact(point.x);
    if (sweep.inputs.size() > 1) json.exact(point.y);
    json.end();
    write_winner(json, "winner", sweep, point.winner);
    json.key("proven").flag(point.proven);
    json.key("planned").flag(point.planned);
    json.key("layouts").begin_list();
    for (std::size_t layout = 0; layout < point.totals.size(); ++layout) {
        const SweptTotal& total = point.totals[layout];
        json.begin_object(Shape::one_line);
        json.key("layout").text(id_of(sweep.layouts[layout]));
        json.key("total");
        if (total.total == no_plan) {
            json.null();
        } else {
            json.money(Money::from_minor(total.total), scenario.currency);
        }
        json.key("lower_bound").money(Money::from_minor(total.bound), scenario.currency);
        json.end();
    }
    json.end();
    json.end();
}

}  // namespace

std::string sweep_json(const Scenario& scenario, const Sweep& sweep) {
    JsonWriter json;
    json.begin_object();
    write_site(json, scenario);
    json.key("inputs").begin_list();
    for (const SweptInput& input : sweep.inputs)
        write_input(json, input);
    json.end();
    json.key("points_planned").whole(sweep.planned);
    json.key("interrupted").flag(sweep.interrupted);
    json.key("changes").begin_list();
    for (const WinnerChange& change : sweep.changes) {
        json.begin_object(Shape::one_line);
        json.key("from").exact(change.from);
        json.key("to").exact(change.to);
        write_winner(json, "before", sweep, change.before);
        write_winner(json, "after", sweep, change.after);
        write_number(json, "proven_from", change.proven_from);
        write_number(json, "proven_to", change.proven_to);
        json.end();
    }
    json.end();
    json.key("points").begin_list();
    for (const SweptPoint& point : sweep.points)
        write_point(json, scenario, sweep, point);
    json.end();
    json.end();
    return json.finished();
}

std::string sweep_csv(const Scenario& scenario, const Sweep& sweep) {
    std::vector<std::string> headings;
    for (const SweptInput& input : sweep.inputs)
        headings.push_back(input.key);
    for (const LayoutKind layout : sweep.layouts) {
        headings.push_back(fmt::format("{}_total", id_of(layout)));
        headings.push_back(fmt::format("{}_lower_bound", id_of(layout)));
    }
    headings.insert(headings.end(), {"winner", "proven"});
    CsvWriter csv(headings);
    for (const SweptPoint& point : sweep.points) {
        csv.number(plain_exact(point.x));
        if (sweep.inputs.size() > 1) csv.number(plain_exact(point.y));
        for (const SweptTotal& total : point.totals) {
            const bool planned = total.total != no_plan;
            csv.number(planned ? decimal_text(Money::from_minor(total.total), scenario.currency) : "");
            csv.number(planned ? decimal_text(Money::from_minor(total.bound), scenario.currency) : "");
        }
        csv.text(point.winner ? id_of(sweep.layouts[static_cast<std::size_t>(*point.winner)]) : "");
        csv.whole(point.proven ? 1 : 0).end_row();
    }
    return csv.table();
}

}  // namespace spadework::report
