#include <fmt/format.h>

#include "site_file/fields.hpp"
#include "site_file/plain_number.hpp"

namespace spadework::site_file {

namespace {

std::string shown(double metric, const Key& key, bool feet) {
    const double factor = site_units_per_metric(key.unit, feet);
    return factor == 1 ? decimal_text(metric) : fmt::format("{:.6g}", metric * factor);
}

std::string range_text(const Key& key, bool feet) {
    const std::string least = shown(key.least, key, feet);
    const std::string most = shown(key.most, key, feet);
    if (key.above_least) return fmt::format("above {} and at most {}", least, most);
    if (key.least == key.most) return "that is " + least;
    return fmt::format("from {} to {}", least, most);
}

std::string number_text(const Key& key, bool feet, std::string_view currency) {
    const std::string unit = unit_text(key.unit, feet, currency);
    return fmt::format("a {}number {}{}", key.type == ValueType::whole ? "whole " : "", range_text(key, feet),
                       unit.empty() ? "" : " (" + unit + ")");
}

}  // namespace

std::string wanted_text(const Key& key, bool feet, std::string_view currency) {
    const std::string words = fmt::format("{}", fmt::join(choice_list(key), ", "));
    const std::string or_file = key.may_be_file ? ", or the path of a file that holds it" : "";
    const std::string at_least = key.least_items > 0 ? fmt::format(" with at least {}", key.least_items) : "";
    switch (key.type) {
        case ValueType::text:
            return "a text";
        case ValueType::id:
            return "an id: one line of text, at most 200 bytes";
        case ValueType::reference:
            return "an id that is in the file";
        case ValueType::choice:
            return "one of " + words;
        case ValueType::choices:
            return "a list of " + words;
        case ValueType::whole:
        case ValueType::number:
            return number_text(key, feet, currency);
        case ValueType::flag:
            return "true or false";
        case ValueType::rate:
            return "a line rate such as 100M, 1G or 2.5G";
        case ValueType::currency:
            return "an ISO 4217 letter code such as EUR";
        case ValueType::file:
            return "the path of a file, relative to this one";
        case ValueType::position:
            return "a position [x, y]";
        case ValueType::positions:
            return "a list of positions [x, y]";
        case ValueType::rings:
            return "a list of lists of positions [x, y]";
        case ValueType::texts:
            return "a list of texts";
        case ValueType::text_map:
            return "a mapping of texts" + at_least;
        case ValueType::record:
            return fmt::format("a mapping that describes {}", key.record->name) + or_file;
        case ValueType::record_list:
            return fmt::format("a list of mappings, each describing {}", key.record->name) + at_least + or_file;
        case ValueType::record_map:
            return fmt::format("a mapping of names, each describing {}", key.record->name) + at_least + or_file;
        case ValueType::texts_or_word:
            return fmt::format("a list of texts, or one of {}", words);
    }
    return {};
}

}  // namespace spadework::site_file
