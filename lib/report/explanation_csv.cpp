#include "report/csv_writer.hpp"
#include "report/explanation_report.hpp"
#include "report/explanation_tables.hpp"
#include "report/figures.hpp"
#include "report/lookup.hpp"

namespace spadework::report {

namespace {

std::string with_unit(const char* name, const Scenario& scenario) {
    return std::string(name) + "_" + length_unit(scenario);
}

/// The cells from `status` to `proved`.
void add_alternative(CsvWriter& csv, const Scenario& scenario, const Alternative& alternative) {
    csv.text(!alternative.looked_at ? "not-looked-at" : alternative.found ? "found" : "none");
    csv.number(alternative.found ? decimal_text(alternative.extra, scenario.currency) : "");
    const bool bounded = alternative.found && alternative.least_extra;
    csv.number(bounded ? decimal_text(*alternative.least_extra, scenario.currency) : "");
    csv.text(alternative.proved() ? "yes" : "no").text(scenario.currency.code);
}

std::string places_of(const Scenario& scenario, const std::vector<PlaceIndex>& places) {
    std::string text;
    for (const PlaceIndex place : places)
        text += (text.empty() ? "" : " ") + place_at(scenario, place).id;
    return text;
}

void add_enclosure_row(CsvWriter& csv, const Scenario& scenario, const EnclosureReason& reason, const char* change,
                       const Alternative& alternative, const std::vector<PlaceIndex>& places) {
    csv.text("enclosure").text(place_at(scenario, reason.place).id);
    csv.text("").number("").number("").number("").text(change);
    add_alternative(csv, scenario, alternative);
    csv.text(places_of(scenario, places)).text("").number("").text("").text(alternative.reason).end_row();
}

/// The cells that say how the building is served now.
void begin_building_row(CsvWriter& csv, const Scenario& scenario, const BuildingReason& reason, const char* change) {
    csv.text("building").text(building_at(scenario, reason.building).id);
    csv.text(point_in_words(scenario, reason.service)).number(plain(reason.service.route, scenario));
    csv.number(plain(reason.own_trench, scenario)).number(plain(reason.shared_trench, scenario)).text(change);
}

void add_building_rows(CsvWriter& csv, const Scenario& scenario, const BuildingReason& reason) {
    begin_building_row(csv, scenario, reason, "otherwise");
    add_alternative(csv, scenario, reason.otherwise);
    const bool found = reason.otherwise.found;
    csv.text("").text(found ? point_in_words(scenario, reason.service_otherwise) : "");
    csv.number(found ? plain(reason.service_otherwise.route, scenario) : "");
    csv.text(reason.segment_avoided ? segment_at(scenario, *reason.segment_avoided).id : "");
    csv.text(reason.otherwise.reason).end_row();
    begin_building_row(csv, scenario, reason, "left-out");
    add_alternative(csv, scenario, reason.left_out);
    csv.text("").text("").number("").text("").text(reason.left_out.reason).end_row();
}

}  // namespace

std::string explanation_csv(const Scenario& scenario, const std::optional<Explanation>& explanation) {
    CsvWriter csv({"part", "id", "served_from", with_unit("route", scenario), with_unit("own_trench", scenario),
                   with_unit("shared_trench", scenario), "change", "status", "extra_cost", "proven_least_extra_cost",
                   "proved", "currency", "enclosures_then", "served_from_then", with_unit("route_then", scenario),
                   "segment_avoided", "reason"});
    if (!explanation) return csv.table();
    for (const EnclosureReason& reason : explanation->enclosures) {
        add_enclosure_row(csv, scenario, reason, "elsewhere", reason.elsewhere, reason.places_elsewhere);
        add_enclosure_row(csv, scenario, reason, "one-fewer", reason.left_out, reason.places_left_out);
    }
    for (const BuildingReason& reason : explanation->buildings)
        add_building_rows(csv, scenario, reason);
    return csv.table();
}

}  // namespace spadework::report
