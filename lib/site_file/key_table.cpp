#include <fmt/format.h>

#include "site_file/fields.hpp"
#include "site_file/json_schema.hpp"
#include "site_file/keys.hpp"
#include "site_file/plain_number.hpp"

namespace spadework::site_file {

namespace {

std::string range_text(const Key& key) {
    const std::string least = decimal_text(key.least);
    const std::string most = decimal_text(key.most);
    if (key.least == key.most) return least;
    return key.above_least ? fmt::format("above {}, to {}", least, most) : fmt::format("{} to {}", least, most);
}

std::string words_text(const Key& key) {
    return fmt::format("`{}`", fmt::join(choice_list(key), "`, `"));
}

std::string type_text(const Key& key) {
    switch (key.type) {
        case ValueType::text:
            return "text";
        case ValueType::id:
            return "id";
        case ValueType::reference:
            return "an id in the file";
        case ValueType::choice:
            return "one of " + words_text(key);
        case ValueType::choices:
            return "list of " + words_text(key);
        case ValueType::whole:
            return "whole number, " + range_text(key);
        case ValueType::number:
            return "number, " + range_text(key) + (may_be_range(key) ? ", or a range" : "");
        case ValueType::flag:
            return "`true` or `false`";
        case ValueType::rate:
            return "line rate";
        case ValueType::currency:
            return "currency code";
        case ValueType::file:
            return "path of a file";
        case ValueType::position:
            return "[x, y]";
        case ValueType::positions:
            return "list of [x, y]";
        case ValueType::rings:
            return "list of lists of [x, y]";
        case ValueType::texts:
            return "list of texts";
        case ValueType::text_map:
            return "names, each with a text";
        case ValueType::record:
            return "mapping";
        case ValueType::record_list:
            return key.least_items > 0 ? fmt::format("list of mappings, at least {}", key.least_items)
                                       : "list of mappings";
        case ValueType::record_map:
            return fmt::format("names, each with a mapping, at least {}", key.least_items);
        case ValueType::texts_or_word:
            return "list of texts, or " + words_text(key);
    }
    return {};
}

std::string table_unit(Unit unit) {
    switch (unit) {
        case Unit::length:
            return "m or ft";
        case Unit::money_per_length:
            return "money a m or ft";
        case Unit::hours_per_length:
            return "hours a m or ft";
        default:
            return unit_text(unit, false, "money");
    }
}

std::string default_text(const Key& key) {
    if (key.required) return "**required**";
    if (key.fallback.empty()) {
        if (!key.source.empty()) return std::string(key.source);
        return key.record == nullptr ? "none" : "each key's own default";
    }
    const std::string unit = key.unit == Unit::length ? " m" : key.unit == Unit::hours_per_length ? " hours a m" : "";
    return fmt::format("`{}`{} ({})", key.fallback, key.fallback == "0" ? "" : unit, key.source);
}

void add_record(std::string& text, const Record& record) {
    text += record.heading.empty() ? std::string("### Top of the file\n\n")
                                   : fmt::format("### `{}`: {}\n\n", record.heading, record.name);
    text += "| key | value | unit | default (source) | meaning |\n|---|---|---|---|---|\n";
    for (const Key& key : record.keys) {
        text += fmt::format("| `{}` | {}{} | {} | {} | {} |\n", key.name, type_text(key),
                            key.may_be_file ? ", or path of a file" : "", table_unit(key.unit), default_text(key),
                            key.meaning);
    }
    text += "\n";
}

}  // namespace

std::string key_table_markdown() {
    std::string text;
    for (const Record* record : all_records())
        add_record(text, *record);
    text.pop_back();
    return text;
}

}  // namespace spadework::site_file
