#include "certificate/writer.hpp"
#include "plan_file/plan_words.hpp"
#include "report/plan_file_json.hpp"

namespace spadework::certificate {

namespace {

using report::JsonWriter;
using Shape = JsonWriter::Shape;

template <typename Item, typename Index>
const std::string& id_at(const std::vector<Item>& items, Index index) {
    return items[static_cast<std::size_t>(index)].id;
}

void write_steps(JsonWriter& json, const Scenario& scenario, const char* name, const std::vector<Step>& steps) {
    write_list(json, name, steps, Shape::one_line, [&](const Step& step) {
        json.begin_list(Shape::one_line);
        json.text(id_at(scenario.segments, step.segment));
        json.whole(step.way);
        json.end();
    });
}

template <typename Product>
void write_pieces(JsonWriter& json, const char* name, const std::vector<Pieces>& list,
                  const std::vector<Product>& products) {
    write_list(json, name, list, Shape::one_line, [&](const Pieces& pieces) {
        json.begin_list(Shape::one_line);
        json.text(id_at(products, pieces.product));
        json.whole(pieces.count);
        json.end();
    });
}

void write_building(JsonWriter& json, const char* name, const Scenario& scenario,
                    const std::optional<BuildingIndex>& building) {
    write_or_null(json, name, building, [&](BuildingIndex index) { json.text(id_at(scenario.buildings, index)); });
}

void write_buildings(JsonWriter& json, const Scenario& scenario, const std::vector<BuildingIndex>& buildings) {
    json.begin_list(Shape::one_line);
    for (const BuildingIndex building : buildings)
        json.text(id_at(scenario.buildings, building));
    json.end();
}

void write_numbers(JsonWriter& json, const char* name, const std::vector<int>& numbers) {
    write_list(json, name, numbers, Shape::one_line, [&](int number) { json.whole(number); });
}

void write_cable(JsonWriter& json, const Scenario& scenario, const PlannedCable& cable) {
    json.begin_object(Shape::one_line);
    json.key("id").text(cable.id);
    json.key("role").text(plan_file::role_words()[static_cast<std::size_t>(cable.role)]);
    json.key("from").text(id_at(scenario.places, cable.from));
    json.key("to").text(id_at(scenario.places, cable.to));
    write_steps(json, scenario, "steps", cable.steps);
    json.key("product").text(id_at(scenario.catalogue.cables, cable.product));
    report::write_need(json, cable.need);
    json.key("route").whole(cable.lengths.route.millimetres());
    json.key("with_slack").whole(cable.lengths.with_slack.millimetres());
    json.key("ordered").whole(cable.lengths.ordered.millimetres());
    json.key("joints").whole(cable.lengths.joints);
    write_building(json, "building", scenario, cable.building);
    json.key("enclosure").whole(cable.enclosure.value_or(-1));
    json.end();
}

void write_enclosure(JsonWriter& json, const Scenario& scenario, const PlannedEnclosure& enclosure) {
    json.begin_object(Shape::one_line);
    json.key("place").text(id_at(scenario.places, enclosure.place));
    write_pieces(json, "products", enclosure.products, scenario.catalogue.enclosures);
    report::write_need(json, enclosure.need);
    write_numbers(json, "trunks", enclosure.trunks);
    json.key("serves");
    write_buildings(json, scenario, enclosure.serves);
    json.end();
}

void write_link(JsonWriter& json, const Scenario& scenario, const PlannedLink& link) {
    json.begin_object(Shape::one_line);
    write_building(json, "building", scenario, link.building);
    write_building(json, "from", scenario, link.from);
    json.key("number").whole(link.number);
    json.key("megabits").whole(link.rate.megabits());
    json.key("optic").text(id_at(scenario.catalogue.optics, link.optic));
    if (link.attenuator_at_start)
        json.key("attenuator_at_start").text(id_at(scenario.catalogue.attenuators, *link.attenuator_at_start));
    if (link.attenuator_at_end)
        json.key("attenuator_at_end").text(id_at(scenario.catalogue.attenuators, *link.attenuator_at_end));
    json.key("strands").whole(link.strands);
    write_numbers(json, "cables", link.cables);
    json.key("glass").whole(link.glass.millimetres());
    json.key("mated_pairs").whole(link.mated_pairs);
    json.key("splices").whole(link.splices);
    json.end();
}

void write_building_gear(JsonWriter& json, const Scenario& scenario, const PlannedGear& gear) {
    json.begin_object(Shape::one_line);
    write_building(json, "building", scenario, gear.building);
    json.key("product").text(id_at(scenario.catalogue.building_gear, gear.pieces.product));
    json.key("pieces").whole(gear.pieces.count);
    json.end();
}

}  // namespace

void write_plan(JsonWriter& json, const Scenario& scenario, const Plan& plan) {
    const Shape lines = Shape::lines;
    json.begin_object();
    write_steps(json, scenario, "trenches", plan.trenches);
    write_list(json, "cables", plan.cables, lines, [&](const auto& cable) { write_cable(json, scenario, cable); });
    write_list(json, "enclosures", plan.enclosures, lines,
               [&](const auto& enclosure) { write_enclosure(json, scenario, enclosure); });
    write_list(json, "links", plan.links, lines, [&](const auto& link) { write_link(json, scenario, link); });
    write_list(json, "building_gear", plan.building_gear, lines,
               [&](const auto& gear) { write_building_gear(json, scenario, gear); });
    write_pieces(json, "hub_gear", plan.hub_gear, scenario.catalogue.hub_gear);
    json.key("hub_ports").whole(plan.hub_ports);
    write_list(json, "chains", plan.chains, Shape::lines,
               [&](const auto& chain) { write_buildings(json, scenario, chain); });
    json.end();
}

}  // namespace spadework::certificate
