#include "report/explanation_report.hpp"
#include "report/lookup.hpp"

namespace spadework::report {

namespace {

void write_money_or_null(JsonWriter& json, const char* key, const std::optional<Money>& money,
                         const Currency& currency) {
    write_or_null(json, key, money, [&](const Money& amount) { json.money(amount, currency); });
}

/// Members of the current object.
void write_alternative(JsonWriter& json, const Scenario& scenario, const Alternative& alternative) {
    json.key("status").text(!alternative.looked_at ? "not-looked-at" : alternative.found ? "found" : "none");
    json.key("reason").text(alternative.reason);
    write_money_or_null(json, "extra_cost", alternative.found ? std::optional(alternative.extra) : std::nullopt,
                        scenario.currency);
    write_money_or_null(json, "proven_least_extra_cost", alternative.found ? alternative.least_extra : std::nullopt,
                        scenario.currency);
    json.key("proved").flag(alternative.proved());
}

void write_places(JsonWriter& json, const Scenario& scenario, const std::vector<PlaceIndex>& places) {
    json.key("enclosures").begin_list(JsonWriter::Shape::one_line);
    for (const PlaceIndex place : places)
        json.text(place_at(scenario, place).id);
    json.end();
}

/// Members of the current object.
void write_service(JsonWriter& json, const Scenario& scenario, const Service& service) {
    json.key("served_from").text(service.enclosure ? "enclosure" : service.building ? "building" : "hub");
    json.key("point");
    if (service.enclosure) {
        json.text(place_at(scenario, *service.enclosure).id);
    } else if (service.building) {
        json.text(building_at(scenario, *service.building).id);
    } else {
        json.text(place_at(scenario, scenario.hub.place).id);
    }
    write_or_null(json, "next_in_chain", service.next,
                  [&](BuildingIndex next) { json.text(building_at(scenario, next).id); });
    json.key("route_m").metres(service.route);
}

void write_enclosure(JsonWriter& json, const Scenario& scenario, const EnclosureReason& reason) {
    json.begin_object();
    json.key("place").text(place_at(scenario, reason.place).id);
    json.key("buildings_served").whole(reason.buildings_served);
    json.key("elsewhere").begin_object();
    write_alternative(json, scenario, reason.elsewhere);
    write_places(json, scenario, reason.places_elsewhere);
    json.end();
    json.key("one_fewer").begin_object();
    write_alternative(json, scenario, reason.left_out);
    write_places(json, scenario, reason.places_left_out);
    json.end();
    json.end();
}

void write_other_way(JsonWriter& json, const Scenario& scenario, const BuildingReason& reason) {
    json.key("otherwise").begin_object();
    write_alternative(json, scenario, reason.otherwise);
    if (reason.otherwise.found) {
        write_service(json, scenario, reason.service_otherwise);
        write_or_null(json, "segment_avoided", reason.segment_avoided,
                      [&](SegmentIndex segment) { json.text(segment_at(scenario, segment).id); });
    }
    json.end();
}

void write_building(JsonWriter& json, const Scenario& scenario, const BuildingReason& reason) {
    json.begin_object();
    json.key("building").text(building_at(scenario, reason.building).id);
    write_service(json, scenario, reason.service);
    json.key("own_trench_m").metres(reason.own_trench);
    json.key("shared_trench_m").metres(reason.shared_trench);
    write_other_way(json, scenario, reason);
    json.key("left_out").begin_object();
    write_alternative(json, scenario, reason.left_out);
    json.end();
    json.end();
}

}  // namespace

void write_explanation(JsonWriter& json, const Scenario& scenario, const std::optional<Explanation>& explanation) {
    if (!explanation) {
        json.null();
        return;
    }
    json.begin_object();
    json.key("layout").text(id_of(explanation->layout));
    json.key("interrupted").flag(explanation->interrupted);
    json.key("enclosures").begin_list();
    for (const EnclosureReason& reason : explanation->enclosures)
        write_enclosure(json, scenario, reason);
    json.end();
    json.key("buildings").begin_list();
    for (const BuildingReason& reason : explanation->buildings)
        write_building(json, scenario, reason);
    json.end();
    json.end();
}

}  // namespace spadework::report
