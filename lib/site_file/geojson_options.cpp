#include "site_file/geojson_options.hpp"

#include <fmt/format.h>

#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

/// Ground that a key names; the first one, and an error, where there is none of that name.
int ground_of(Fields& fields, std::string_view key, Reading& reading, const Draft& draft) {
    const std::string id = fields.id(key);
    return id.empty() ? 0 : std::max(0, draft.grounds.find(id, fields.position(key), reading));
}

/// Names of the user's own with a text each. Keys that repeat are reported.
std::vector<std::pair<NodeId, NodeId>> text_pairs(Fields& fields, std::string_view key, Reading& reading) {
    std::vector<std::pair<NodeId, NodeId>> pairs;
    const NodeId node = fields.node(key);
    if (node == no_node) return pairs;
    const Document& document = fields.document();
    const auto is_text = [&document](NodeId id) { return document.at(id).kind == NodeKind::scalar; };
    if (document.at(node).kind != NodeKind::mapping) {
        reading.error(document.position(node), fmt::format("{} is {}", key, description(document.at(node))),
                      "a mapping of texts");
        return pairs;
    }
    NameIndex seen("value");
    const std::vector<NodeId> children = document.children(node);
    for (std::size_t i = 0; i + 1 < children.size(); i += 2) {
        if (!is_text(children[i]) || !is_text(children[i + 1])) {
            reading.error(document.position(children[i]), fmt::format("an entry of {} that is not two texts", key),
                          "a value, a colon and a text");
            continue;
        }
        const bool is_new = seen.add(document.at(children[i]).text, 0, document.position(children[i]), reading);
        if (is_new) pairs.emplace_back(children[i], children[i + 1]);
    }
    return pairs;
}

void read_ground_choice(Fields fields, Reading& reading, const Draft& draft, GeoJsonOptions& options) {
    const Document& document = fields.document();
    options.ground_property = fields.text("property");
    options.default_ground = ground_of(fields, "default", reading, draft);
    for (const auto& [value, ground] : text_pairs(fields, "values", reading)) {
        const int number = draft.grounds.find(document.at(ground).text, document.position(ground), reading);
        if (number >= 0) options.ground_by_value[document.at(value).text] = number;
    }
}

void read_ban_choice(Fields fields, Reading& reading, GeoJsonOptions& options) {
    const Document& document = fields.document();
    options.ban_property = fields.text("property");
    for (const auto& [value, reason] : text_pairs(fields, "values", reading))
        options.ban_by_value[document.at(value).text] = document.at(reason).text;
}

AreaRule read_area_rule(Fields fields, Reading& reading, const Draft& draft) {
    AreaRule rule;
    rule.property = fields.text("property");
    const Document& document = fields.document();
    const NodeId values = fields.node("values");
    const std::vector<NodeId> children = document.children(values);
    if (values == no_node) return rule;
    if (document.at(values).kind != NodeKind::mapping || children.empty()) {
        reading.error(document.position(values), fmt::format("values is {}", description(document.at(values))),
                      "a mapping of values, each describing a kind of area");
        return rule;
    }
    NameIndex seen("value");
    for (std::size_t i = 0; i + 1 < children.size(); i += 2) {
        const std::string& value = document.at(children[i]).text;
        seen.add(value, 0, document.position(children[i]), reading);
        Fields kind(reading, document, children[i + 1], geojson_area_kind_record(), "");
        rule.kinds[value] = read_area_kind(kind, reading, draft);
    }
    return rule;
}

void read_take(Fields& fields, GeoJsonOptions& options) {
    const NodeId node = fields.node("take");
    const Document& document = fields.document();
    if (node == no_node || document.at(node).kind == NodeKind::scalar) {
        options.take_all = fields.choice("take") == 1;
        return;
    }
    options.take = fields.texts("take");
    for (const NodeId item : document.children(node)) {
        if (document.at(item).kind == NodeKind::scalar) options.take_positions.push_back(document.position(item));
    }
}

void read_building_choice(Fields fields, GeoJsonOptions& options) {
    options.building_property = fields.text("property");
    read_take(fields, options);
    if (fields.has("nearest")) options.nearest = fields.whole("nearest");
    options.links = read_links(fields);
    if (options.links.empty()) {
        fields.text("links");
        options.links = {{BitRate::from_megabits(1000), 1}};
    }
    options.devices = read_devices(fields);
}

}  // namespace

GeoJsonOptions read_geojson_options(Fields fields, Reading& reading, const Draft& draft) {
    GeoJsonOptions options;
    options.file = fields.text("file");
    options.file_position = fields.position("file");
    read_ground_choice(fields.record("grounds"), reading, draft, options);
    options.length_property = fields.text("length");
    if (fields.has("bans")) read_ban_choice(fields.record("bans"), reading, options);
    read_building_choice(fields.record("buildings"), options);
    for (const NodeId item : fields.items("areas"))
        options.area_rules.push_back(read_area_rule(fields.item("areas", item, ""), reading, draft));
    options.lateral_ground =
        fields.has("lateral-ground") ? ground_of(fields, "lateral-ground", reading, draft) : options.default_ground;
    options.longest_lateral_metres = fields.number("longest-lateral");
    options.skip_cut_off = fields.choice("cut-off") == 1;
    return options;
}

}  // namespace spadework::site_file
