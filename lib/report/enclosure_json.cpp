#include "report/enclosure_report.hpp"
#include "report/json_writer.hpp"
#include "report/layout_json.hpp"
#include "report/lookup.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

void write_rank(JsonWriter& json, const Scenario& scenario, const PlaceRank& place, std::int64_t rank) {
    const LayoutResult& result = place.result;
    json.begin_object();
    json.key("rank").whole(rank);
    json.key("place").text(place_at(scenario, place.place).id);
    json.key("status").text(result.feasible() ? "feasible" : "infeasible");
    json.key("reason").text(result.reason);
    write_totals(json, scenario, result);
    json.key("over_best");
    if (result.feasible()) {
        json.money(place.over_best, scenario.currency);
        json.key("cable_ordered_m").metres(cable_ordered(result));
    } else {
        json.null();
        json.key("cable_ordered_m").null();
    }
    json.key("why").text(place.why);
    json.end();
}

void write_best(JsonWriter& json, const Scenario& scenario, const EnclosureStudy& study) {
    json.key("best");
    if (study.ranking.empty()) {
        json.null();
    } else {
        write_layout(json, scenario, study.ranking.front().result);
    }
}

}  // namespace

std::string enclosure_json(const Scenario& scenario, const EnclosureStudy& study, std::uint64_t seed) {
    JsonWriter json;
    json.begin_object();
    write_site(json, scenario);
    json.key("length_unit").text("m");
    json.key("seed").unsigned_whole(seed);
    json.key("interrupted").flag(study.interrupted);
    json.key("ranking").begin_list();
    std::int64_t rank = 0;
    for (const PlaceRank& place : study.ranking)
        write_rank(json, scenario, place, ++rank);
    json.end();
    write_best(json, scenario, study);
    json.key("barred").begin_list();
    for (const BarredPlace& barred : study.barred) {
        json.begin_object(Shape::one_line);
        json.key("place").text(place_at(scenario, barred.place).id);
        json.key("reason").text(barred.reason);
        json.end();
    }
    json.end();
    json.key("by_count").begin_list();
    for (std::size_t i = 0; i < study.by_count.size(); ++i) {
        json.begin_object();
        json.key("enclosures").whole(static_cast<std::int64_t>(i + 1));
        json.key("result");
        write_layout(json, scenario, study.by_count[i]);
        json.end();
    }
    json.end();
    json.end();
    return json.finished();
}

}  // namespace spadework::report
