#include "report/plan_file_json.hpp"

#include "plan_file/plan_words.hpp"

namespace spadework::report {

namespace {

using namespace plan_file;
using Shape = JsonWriter::Shape;

/// A list with an object a line.
template <typename Item, typename Write>
void write_objects(JsonWriter& json, const char* name, const std::vector<Item>& items, Write write) {
    write_list(json, name, items, Shape::lines, [&](const Item& item) {
        json.begin_object(Shape::one_line);
        write(item);
        json.end();
    });
}

void write_texts(JsonWriter& json, const char* name, const std::vector<std::string>& texts) {
    write_list(json, name, texts, Shape::one_line, [&](const std::string& one) { json.text(one); });
}

void write_pieces(JsonWriter& json, const char* name, const std::vector<NamedPieces>& list) {
    write_list(json, name, list, Shape::one_line, [&](const NamedPieces& pieces) {
        json.begin_list(Shape::one_line);
        json.text(pieces.product);
        json.whole(pieces.count);
        json.end();
    });
}

/// A name, or null where there is none.
void write_name(JsonWriter& json, const char* name, const std::string& value) {
    json.key(name);
    if (value.empty()) {
        json.null();
    } else {
        json.text(value);
    }
}

void write_line(JsonWriter& json, const NamedLine& line) {
    json.key("segment").text(line.segment);
    json.key("from").text(line.from);
    json.key("to").text(line.to);
    json.key("like").text(line.like);
}

void write_segment(JsonWriter& json, const UsedSegment& segment) {
    json.key("segment").text(segment.step.segment);
    json.key("way").text(segment.step.way);
    json.key("from").text(segment.from);
    json.key("to").text(segment.to);
    json.key("ground").text(segment.ground);
    json.key("length_mm").whole(segment.length.millimetres());
}

void write_cable(JsonWriter& json, const NamedCable& cable) {
    json.key("id").text(cable.id);
    json.key("role").text(role_words()[static_cast<std::size_t>(cable.role)]);
    json.key("from").text(cable.from);
    json.key("to").text(cable.to);
    write_list(json, "steps", cable.steps, Shape::one_line, [&](const NamedStep& step) {
        json.begin_list(Shape::one_line);
        json.text(step.segment);
        json.text(step.way);
        json.end();
    });
    json.key("product").text(cable.product);
    json.key("strands").whole(cable.strands);
    write_need(json, cable.need);
    json.key("route_mm").whole(cable.lengths.route.millimetres());
    json.key("with_slack_mm").whole(cable.lengths.with_slack.millimetres());
    json.key("ordered_mm").whole(cable.lengths.ordered.millimetres());
    json.key("joints").whole(cable.lengths.joints);
    write_name(json, "building", cable.building);
    write_name(json, "enclosure", cable.enclosure);
    if (!cable.spliced_to.empty()) json.key("spliced_to").text(cable.spliced_to);
}

void write_enclosure(JsonWriter& json, const NamedEnclosure& enclosure) {
    json.key("place").text(enclosure.place);
    write_pieces(json, "products", enclosure.products);
    write_need(json, enclosure.need);
    write_texts(json, "trunks", enclosure.trunks);
    write_texts(json, "serves", enclosure.serves);
}

void write_link(JsonWriter& json, const NamedLink& link) {
    json.key("building").text(link.building);
    json.key("number").whole(link.number);
    write_name(json, "from", link.from);
    json.key("megabits").whole(link.rate.megabits());
    json.key("optic").text(link.optic);
    if (!link.attenuator_at_start.empty()) json.key("attenuator_at_start").text(link.attenuator_at_start);
    if (!link.attenuator_at_end.empty()) json.key("attenuator_at_end").text(link.attenuator_at_end);
    json.key("strands").whole(link.strands);
    write_texts(json, "cables", link.cables);
    json.key("glass_mm").whole(link.glass.millimetres());
    json.key("mated_pairs").whole(link.mated_pairs);
    json.key("splices").whole(link.splices);
}

void write_strand(JsonWriter& json, const NamedStrand& strand) {
    json.key("cable").text(strand.kept.cable);
    json.key("strand").whole(strand.kept.number);
    json.key("tube").text(strand.colour.tube);
    json.key("colour").text(strand.colour.strand);
    json.key("purpose").text(purpose_words()[static_cast<std::size_t>(strand.purpose)]);
    write_name(json, "building", strand.kept.building);
    json.key("link").whole(strand.kept.link);
    json.key("leg").whole(strand.kept.leg);
    json.key("near").text(holder_words()[static_cast<std::size_t>(strand.near)]);
    json.key("near_adapter").whole(strand.kept.near_adapter);
    json.key("near_port").whole(strand.kept.near_port);
    json.key("far").text(holder_words()[static_cast<std::size_t>(strand.far)]);
    json.key("far_adapter").whole(strand.kept.far_adapter);
    json.key("far_port").whole(strand.kept.far_port);
}

void write_limit(JsonWriter& json, const NamedLimit& limit) {
    json.begin_object(Shape::one_line);
    json.key("wavelength_pm").whole(limit.wavelength_pm);
    json.key("calculated_mdb").whole(limit.calculated_mdb);
    json.key("optics_mdb").whole(limit.optics_mdb);
    json.key("pass_mdb").whole(limit.pass_mdb);
    json.key("least_mdb").whole(limit.least_mdb);
    json.end();
}

void write_test(JsonWriter& json, const NamedTest& test) {
    json.key("building").text(test.building);
    json.key("link").whole(test.link);
    json.key("strand").whole(test.leg);
    json.key("from").text(test.from);
    write_texts(json, "way", test.way);
    json.key("glass_mm").whole(test.glass.millimetres());
    write_list(json, "limits", test.limits, Shape::one_line, [&](const NamedLimit& one) { write_limit(json, one); });
    write_list(json, "events", test.events, Shape::one_line, [&](const NamedEvent& event) {
        json.begin_object(Shape::one_line);
        json.key("what").text(event.what);
        json.key("where").text(event.where);
        json.key("distance_mm").whole(event.distance.millimetres());
        json.end();
    });
}

void write_label(JsonWriter& json, const NamedLabel& label) {
    json.key("place").text(label.place);
    json.key("marks").text(label.marks);
    json.key("line_1").text(label.line_1);
    json.key("line_2").text(label.line_2);
}

void write_costs(JsonWriter& json, const NamedCosts& costs) {
    json.key("costs").begin_object();
    json.key("currency").text(costs.currency);
    json.key("digits").whole(costs.digits);
    write_objects(json, "categories", costs.categories, [&](const auto& category) {
        json.key("category").text(category.first);
        json.key("amount").whole(category.second.minor());
    });
    json.key("total").whole(costs.total.minor());
    json.end();
}

void write_length_or_null(JsonWriter& json, const char* name, const std::optional<Length>& length) {
    write_or_null(json, name, length, [&](Length known) { json.whole(known.millimetres()); });
}

void write_reading(JsonWriter& json, const NamedReading& reading) {
    json.key("building").text(reading.key.building);
    json.key("link").whole(reading.key.link);
    json.key("strand").whole(reading.key.leg);
    json.key("from").text(reading.key.from);
    json.key("wavelength_pm").whole(reading.key.wavelength_pm);
    write_or_null(json, "loss_mdb", reading.loss_mdb, [&](std::int64_t loss) { json.whole(loss); });
    write_length_or_null(json, "length_mm", reading.length);
    json.key("date").text(reading.date);
    json.key("tested_by").text(reading.tested_by);
    json.key("verdict").text(verdict_words()[static_cast<std::size_t>(reading.verdict)]);
    json.key("why").text(reading.why);
}

void write_as_built(JsonWriter& json, const AsBuilt& as_built) {
    json.key("as_built").begin_object();
    json.key("limits").begin_object(Shape::one_line);
    json.key("length_thousandths_percent").whole(as_built.limits.length_share);
    json.key("length_least_mm").whole(as_built.limits.length_least.millimetres());
    json.key("direction_mdb").whole(as_built.limits.direction_mdb);
    json.end();
    write_objects(json, "cables", as_built.cables, [&](const AsBuiltCable& cable) {
        json.key("cable").text(cable.cable);
        json.key("ordered_mm").whole(cable.ordered.millimetres());
        write_length_or_null(json, "measured_mm", cable.measured);
    });
    write_objects(json, "readings", as_built.readings, [&](const auto& one) { write_reading(json, one); });
    json.end();
}

void write_head(JsonWriter& json, const PlanFile& file) {
    json.key("format").text(format_name);
    json.key("version").whole(plan_file::has_cuts(file) ? plan_file::format_version_with_cuts
                                                        : plan_file::format_version);
    json.key("site").begin_object(Shape::one_line);
    json.key("name").text(file.site_name);
    json.key("digest").text(file.site_digest);
    json.key("length_unit").text(file.feet ? "ft" : "m");
    json.key("termination").text(file.termination == Termination::factory ? "factory" : "spliced");
    json.end();
    json.key("layout").text(id_of(file.layout));
}

void write_what_is_built(JsonWriter& json, const PlanFile& file) {
    write_objects(json, "straight_lines", file.straight_lines, [&](const auto& one) { write_line(json, one); });
    write_objects(json, "segments", file.segments, [&](const auto& one) { write_segment(json, one); });
    write_objects(json, "cables", file.cables, [&](const auto& one) { write_cable(json, one); });
    write_objects(json, "enclosures", file.enclosures, [&](const auto& one) { write_enclosure(json, one); });
    write_objects(json, "links", file.links, [&](const auto& one) { write_link(json, one); });
    write_objects(json, "building_gear", file.building_gear, [&](const NamedGear& gear) {
        json.key("building").text(gear.building);
        json.key("product").text(gear.pieces.product);
        json.key("pieces").whole(gear.pieces.count);
    });
    write_pieces(json, "hub_gear", file.hub_gear);
    json.key("hub_ports").whole(file.hub_ports);
    write_list(json, "chains", file.chains, Shape::lines, [&](const std::vector<std::string>& chain) {
        json.begin_list(Shape::one_line);
        for (const std::string& building : chain)
            json.text(building);
        json.end();
    });
}

}  // namespace

void write_need(JsonWriter& json, const StrandNeed& need) {
    json.key("in_use").whole(need.in_use);
    json.key("spare").whole(need.spare);
    json.key("headroom").whole(need.headroom);
}

std::string plan_file_json(const PlanFile& file) {
    JsonWriter json;
    json.begin_object();
    write_head(json, file);
    write_what_is_built(json, file);
    write_objects(json, "strands", file.strands, [&](const auto& one) { write_strand(json, one); });
    write_objects(json, "tests", file.tests, [&](const auto& one) { write_test(json, one); });
    write_objects(json, "labels", file.labels, [&](const auto& one) { write_label(json, one); });
    write_costs(json, file.costs);
    if (file.as_built) write_as_built(json, *file.as_built);
    json.end();
    return json.finished();
}

}  // namespace spadework::report
