#include "site_file/json_schema.hpp"

#include <nlohmann/json.hpp>

#include "site_file/currency.hpp"
#include "site_file/fields.hpp"
#include "site_file/keys.hpp"
#include "site_file/plain_number.hpp"

namespace spadework::site_file {

namespace {

using Json = nlohmann::ordered_json;

/// Name of a record's definition: "a future building" is "future-building".
std::string definition_name(const Record& record) {
    std::string name(record.name);
    for (const std::string_view article : {"a ", "an ", "the "}) {
        if (name.starts_with(article)) name.erase(0, article.size());
    }
    for (char& c : name) {
        if (c == ' ') c = '-';
    }
    return name;
}

Json reference_to(const Record& record) {
    return {{"$ref", "#/$defs/" + definition_name(record)}};
}

/// Texts may be written without quotes, and then look like numbers or truth values to a schema.
Json text_type() {
    return {{"type", Json::array({"string", "number", "boolean"})}};
}

Json list_of(Json items, int least_items) {
    Json list = {{"type", "array"}, {"items", std::move(items)}};
    if (least_items > 0) list["minItems"] = least_items;
    return list;
}

Json plain_number_schema(const Key& key) {
    Json schema = {{"type", key.type == ValueType::whole ? "integer" : "number"}};
    // In feet the limits, which are stated in metres, move; the reader checks them.
    const bool moves = site_units_per_metric(key.unit, true) != 1;
    if (key.above_least) {
        schema["exclusiveMinimum"] = key.least;
    } else if (!moves || key.least == 0) {
        schema["minimum"] = key.least;
    }
    if (!moves) schema["maximum"] = key.most;
    return schema;
}

Json number_schema(const Key& key) {
    Json number = plain_number_schema(key);
    if (!may_be_range(key)) return number;
    return {{"anyOf", Json::array({std::move(number), reference_to(range_record())})}};
}

Json position_schema() {
    Json schema = list_of({{"type", "number"}}, 2);
    schema["maxItems"] = 2;
    return schema;
}

Json named_schema(Json value, int least_items) {
    Json schema = {{"type", "object"}, {"additionalProperties", std::move(value)}};
    if (least_items > 0) schema["minProperties"] = least_items;
    return schema;
}

Json choice_schema(const Key& key) {
    return {{"enum", choice_list(key)}};
}

Json value_schema(const Key& key) {
    switch (key.type) {
        case ValueType::text:
        case ValueType::id:
        case ValueType::reference:
            return text_type();
        case ValueType::choice:
            return choice_schema(key);
        case ValueType::choices:
            return list_of(choice_schema(key), key.least_items);
        case ValueType::whole:
        case ValueType::number:
            return number_schema(key);
        case ValueType::flag:
            return {{"type", "boolean"}};
        case ValueType::rate:
            return {{"type", "string"}, {"pattern", "^[0-9]+(\\.[0-9]+)?[MG]$"}};
        case ValueType::currency:
            return {{"enum", currency_codes()}};
        case ValueType::file:
            return {{"type", "string"}};
        case ValueType::position:
            return position_schema();
        case ValueType::positions:
            return list_of(position_schema(), key.least_items);
        case ValueType::rings:
            return list_of(list_of(position_schema(), 3), key.least_items);
        case ValueType::texts:
            return list_of(text_type(), 0);
        case ValueType::text_map:
            return named_schema(text_type(), key.least_items);
        case ValueType::record:
            return reference_to(*key.record);
        case ValueType::record_list:
            return list_of(reference_to(*key.record), key.least_items);
        case ValueType::record_map:
            return named_schema(reference_to(*key.record), key.least_items);
        case ValueType::texts_or_word:
            return {{"anyOf", Json::array({choice_schema(key), list_of(text_type(), 0)})}};
    }
    return Json::object();
}

Json key_schema(const Key& key) {
    Json schema = value_schema(key);
    if (key.may_be_file) schema = {{"anyOf", Json::array({std::move(schema), {{"type", "string"}}})}};
    std::string description(key.meaning);
    const std::string unit = unit_text(key.unit, false, "money");
    if (!unit.empty())
        description += " Unit: " + unit + (site_units_per_metric(key.unit, true) != 1 ? " (or ft)." : ".");
    if (!key.required) {
        const std::string source = key.source.empty() ? std::string() : " (" + std::string(key.source) + ")";
        if (!key.fallback.empty()) {
            description += " Default: " + std::string(key.fallback) + source + ".";
        } else if (!key.source.empty()) {
            description += " Default: " + std::string(key.source) + ".";
        }
    }
    schema["description"] = description;
    return schema;
}

Json record_schema(const Record& record) {
    Json schema = {{"type", "object"}, {"additionalProperties", false}};
    Json required = Json::array();
    Json properties = Json::object();
    for (const Key& key : record.keys) {
        properties[std::string(key.name)] = key_schema(key);
        if (key.required) required.push_back(std::string(key.name));
    }
    if (!required.empty()) schema["required"] = required;
    schema["properties"] = properties;
    if (&record == &range_record()) {
        const auto needing = [](std::initializer_list<const char*> keys) { return Json{{"required", Json(keys)}}; };
        schema["anyOf"] = Json::array({needing({"low", "high"}), needing({"chance", "otherwise", "then"})});
    }
    return schema;
}

}  // namespace

std::string json_schema() {
    Json schema = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                   {"title", "Spadework site file, format 1"}};
    schema.update(record_schema(site_record()));
    Json definitions = Json::object();
    for (const Record* record : all_records()) {
        if (record != &site_record()) definitions[definition_name(*record)] = record_schema(*record);
    }
    schema["$defs"] = definitions;
    return schema.dump(2) + "\n";
}

}  // namespace spadework::site_file
