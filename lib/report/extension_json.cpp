#include <algorithm>

#include "report/extension_report.hpp"
#include "report/json_writer.hpp"
#include "report/layout_json.hpp"
#include "report/lookup.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

const char* source_id(Source::Kind kind) {
    switch (kind) {
        case Source::Kind::hub:
            return "hub";
        case Source::Kind::built_enclosure:
            return "enclosure";
        case Source::Kind::new_enclosure:
            return "new-enclosure";
        case Source::Kind::building:
            return "building";
    }
    return "";
}

void write_texts(JsonWriter& json, const char* key, const std::vector<std::string>& texts) {
    json.key(key).begin_list(Shape::one_line);
    for (const std::string& text : texts)
        json.text(text);
    json.end();
}

void write_additions(JsonWriter& json, const Scenario& scenario, const Extension& extension) {
    json.key("additions").begin_list();
    for (const Addition& addition : extension.additions) {
        json.begin_object(Shape::one_line);
        json.key("building").text(building_at(scenario, addition.building).id);
        json.key("links").whole(link_count(building_at(scenario, addition.building)));
        json.key("source").text(source_id(addition.source.kind));
        json.key("from").text(place_at(scenario, addition.from).id);
        json.key("cable_there").flag(addition.source.cable >= 0);
        json.key("route").metres(addition.route);
        json.key("shared").metres(addition.shared);
        json.end();
    }
    json.end();
}

void write_cables(JsonWriter& json, const Scenario& scenario, const Extension& extension) {
    json.key("cables").begin_list();
    for (const int c : extension.extended.cables) {
        const PlannedCable& cable = extension.extended.plan.cables[static_cast<std::size_t>(c)];
        json.begin_object(Shape::one_line);
        json.key("id").text(cable.id);
        json.key("product").text(product_of(scenario, cable).id);
        json.key("from").text(place_at(scenario, cable.from).id);
        json.key("to").text(place_at(scenario, cable.to).id);
        json.key("route").metres(cable.lengths.route);
        json.key("ordered").metres(cable.lengths.ordered);
        json.key("segments").begin_list(Shape::one_line);
        for (const Step& step : cable.steps)
            json.text(segment_at(scenario, step.segment).id);
        json.end();
        json.end();
    }
    json.end();
}

void write_opened(JsonWriter& json, const Scenario& scenario, const Extension& extension) {
    json.key("opened").begin_list();
    for (const Step& step : extension.extended.opened) {
        json.begin_object(Shape::one_line);
        json.key("segment").text(segment_at(scenario, step.segment).id);
        json.key("ground").text(way_of(scenario, step).ground);
        json.key("length").metres(segment_at(scenario, step.segment).length);
        json.end();
    }
    json.end();
}

void write_strands(JsonWriter& json, const Scenario& scenario, const Extension& extension) {
    const auto& fresh = extension.extended.links;
    json.key("strands").begin_list();
    for (const MappedStrand& strand : extension.strand_map) {
        if (!strand.link || std::find(fresh.begin(), fresh.end(), *strand.link) == fresh.end()) continue;
        const PlannedLink& link = extension.extended.plan.links[static_cast<std::size_t>(*strand.link)];
        json.begin_object(Shape::one_line);
        json.key("cable").text(extension.extended.plan.cables[static_cast<std::size_t>(strand.cable)].id);
        json.key("strand").whole(strand.number);
        json.key("building").text(building_at(scenario, link.building).id);
        json.key("link").whole(link.number);
        json.key("leg").whole(strand.leg);
        json.end();
    }
    json.end();
}

void write_costs(JsonWriter& json, const Scenario& scenario, const Extension& extension) {
    json.key("costs").begin_list();
    for (const CostLine& line : extension.bill.lines) {
        json.begin_object(Shape::one_line);
        json.key("category").text(id_of(line.category));
        json.key("item").text(line.item);
        json.key("quantity").number(line.quantity, 3);
        json.key("unit").text(line.unit);
        json.key("amount").money(line.amount, scenario.currency);
        json.key("cause").text(id_of(line.cause));
        json.key("cause_id").text(line.cause_id);
        json.end();
    }
    json.end();
    json.key("total").money(extension.total, scenario.currency);
    json.key("bound").money(extension.bound, scenario.currency);
    json.key("bound_covers_all").flag(extension.bound_covers_all);
    json.key("others").begin_list();
    for (const OtherWay& other : extension.others) {
        json.begin_object(Shape::one_line);
        json.key("what").text(other.what);
        write_or_null(json, "total", other.total, [&](const Money& total) { json.money(total, scenario.currency); });
        json.key("reason").text(other.reason);
        json.end();
    }
    json.end();
}

void write_down(JsonWriter& json, const Scenario& scenario, const Interruption& down, const Plan& built) {
    json.key("what").text(down.what);
    json.key("outage_minutes").number(down.outage.hours() * 60, 1);
    json.key("cut_off").begin_list(Shape::one_line);
    for (const BuildingIndex building : down.cut_off)
        json.text(building_at(scenario, building).id);
    json.end();
    json.key("links").begin_list();
    for (const int l : down.links) {
        const PlannedLink& link = built.links[static_cast<std::size_t>(l)];
        json.begin_object(Shape::one_line);
        json.key("building").text(building_at(scenario, link.building).id);
        json.key("link").whole(link.number);
        json.end();
    }
    json.end();
}

/// The cheapest other way that takes links down, and is not taken.
void write_interrupting(JsonWriter& json, const Scenario& scenario, const Extension& extension, const Plan& built) {
    json.key("interrupting");
    if (!extension.interrupting) return json.null();
    json.begin_object();
    json.key("total").money(extension.interrupting->total, scenario.currency);
    write_down(json, scenario, extension.interrupting->interruption, built);
    json.end();
}

void write_interruption(JsonWriter& json, const Scenario& scenario, const Extension& extension,
                        const ExtensionStory& story) {
    json.key("interruption");
    if (!extension.interruption) return json.null();
    json.begin_object();
    write_down(json, scenario, *extension.interruption, story.built);
    json.key("restored_strands").whole(extension.restored.strands);
    json.key("labels").begin_list();
    for (const ChangedLabel& label : story.labels) {
        json.begin_object(Shape::one_line);
        json.key("place").text(label.place);
        json.key("marks").text(label.marks);
        json.key("before").text(label.before);
        json.key("after").text(label.after);
        json.end();
    }
    json.end();
    json.end();
}

void write_untouched(JsonWriter& json, const Extension& extension) {
    json.key("untouched").begin_object(Shape::one_line);
    json.key("links").whole(extension.untouched.links);
    json.key("strands").whole(extension.untouched.strands);
    json.key("touched").whole(static_cast<std::int64_t>(extension.untouched.touched.size()));
    json.key("freed_strands").whole(extension.untouched.freed);
    json.end();
}

}  // namespace

std::string extension_json(const Scenario& scenario, const Extension& extension, const ExtensionStory& story) {
    JsonWriter json;
    json.begin_object();
    write_site(json, scenario);
    json.key("length_unit").text("m");
    json.key("status").text(extension.feasible ? "feasible" : "infeasible");
    json.key("reason").text(extension.reason);
    write_texts(json, "gone", story.gone);
    write_texts(json, "notes", story.notes);
    if (extension.feasible) {
        write_additions(json, scenario, extension);
        json.key("new_trench").metres(extension.new_trench);
        json.key("opened_again").metres(extension.opened_again);
        json.key("reused").metres(extension.reused);
        json.key("cable_ordered").metres(extension.cable_ordered);
        json.key("strands_taken").whole(extension.strands_taken);
        write_cables(json, scenario, extension);
        write_opened(json, scenario, extension);
        write_strands(json, scenario, extension);
        write_costs(json, scenario, extension);
        write_interruption(json, scenario, extension, story);
        write_interrupting(json, scenario, extension, story.built);
        write_untouched(json, extension);
    } else {
        write_interrupting(json, scenario, extension, story.built);
    }
    json.end();
    return json.finished();
}

}  // namespace spadework::report
