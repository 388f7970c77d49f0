#include "json/fields.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diagnostics/nearest_name.hpp"
#include "diagnostics/shown_text.hpp"

namespace spadework::json {

namespace {

constexpr std::size_t most_problems = 50;

const JsonValue nothing;

bool is_known(const std::string& key, const std::vector<const char*>& keys) {
    return std::any_of(keys.begin(), keys.end(), [&](const char* known) { return key == known; });
}

}  // namespace

void Problems::add(const JsonValue& where, const std::string& found, const std::string& wanted,
                   const std::string& nearest) {
    const bool is_missing = where.line == 0;  // As its object has been told.
    if (too_many() || is_missing) return;
    list_.push_back({{file_, where.line, where.column}, Severity::error, found, wanted, nearest});
    if (too_many()) list_.push_back({{file_, 0, 0}, Severity::error, "more problems", "none", {}});
}

bool Problems::too_many() const {
    return list_.size() >= most_problems;
}

std::string in_words(const JsonValue& value) {
    switch (value.kind) {
        case JsonKind::null:
            return "null";
        case JsonKind::number:
            return fmt::format("number {}", value.number);
        case JsonKind::text:
            return "text " + shown(value.text, 80);
        case JsonKind::list:
            return fmt::format("a list of {}", std::max(value.items.size(), value.numbers.size()));
        case JsonKind::object:
            return "an object";
    }
    return "something";
}

std::int64_t whole(const JsonValue& value, Range range, Problems& problems) {
    if (value.kind == JsonKind::number && value.number >= range.least && value.number <= range.most) {
        return value.number;
    }
    problems.add(value, in_words(value), fmt::format("a whole number from {} to {}", range.least, range.most));
    return range.least;
}

std::string text(const JsonValue& value, Problems& problems) {
    if (value.kind != JsonKind::text) problems.add(value, in_words(value), "a text");
    return value.text;
}

const std::vector<JsonValue>& items(const JsonValue& value, Problems& problems) {
    if (value.kind != JsonKind::list) problems.add(value, in_words(value), "a list");
    if (!value.numbers.empty()) problems.add(value, "a list of numbers", "a list of other things");
    return value.items;
}

std::vector<std::int64_t> numbers(const JsonValue& value, Range range, Problems& problems) {
    if (value.kind != JsonKind::list) problems.add(value, in_words(value), "a list of whole numbers");
    std::vector<std::int64_t> list = value.numbers;
    for (const JsonValue& item : value.items)
        list.push_back(whole(item, range, problems));
    for (const std::int64_t number : list) {
        if (number >= range.least && number <= range.most) continue;
        problems.add(value, fmt::format("number {} in a list", number),
                     fmt::format("whole numbers from {} to {}", range.least, range.most));
        return {};
    }
    return list;
}

Fields::Fields(const JsonValue& value, const std::vector<const char*>& keys, Problems& problems,
               const std::vector<const char*>& optional)
    : value_(value) {
    if (value.kind != JsonKind::object) {
        problems.add(value, in_words(value), "an object");
        return;
    }
    for (const char* key : keys) {
        const auto named = [&](const auto& member) { return member.key == key; };
        if (std::any_of(value.members.begin(), value.members.end(), named)) continue;
        problems.add(value, fmt::format("no key '{}'", key), "one");
    }
    for (const auto& [key, member] : value.members) {
        if (is_known(key, keys) || is_known(key, optional)) continue;
        problems.add(member, "key " + shown(key, 80), "no such key", nearest_name(key, {keys.begin(), keys.end()}));
    }
}

const JsonValue& Fields::operator[](std::string_view key) const {
    for (const auto& [name, member] : value_.members) {
        if (name == key) return member;
    }
    return nothing;
}

}  // namespace spadework::json
