#pragma once

// Takes JSON apart, value by value, and notes every one that is not what it should be.

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "json/json_value.hpp"

namespace spadework::json {

/// Whole numbers that are taken.
struct Range {
    std::int64_t least = 0;
    std::int64_t most = 0;
};

/// Problems found in one file.
class Problems {
public:
    explicit Problems(std::string file) : file_(std::move(file)) {}

    /// Nothing is noted of a value that is not there: its object has been told that the key is missing.
    void add(const JsonValue& where, const std::string& found, const std::string& wanted,
             const std::string& nearest = "");
    [[nodiscard]] const Diagnostics& list() const { return list_; }
    [[nodiscard]] bool none() const { return list_.empty(); }
    /// So many that more would help nobody.
    [[nodiscard]] bool too_many() const;

private:
    std::string file_;
    Diagnostics list_;
};

/// "number 3", "text 'x'", "a list": what a value is, for people.
std::string in_words(const JsonValue& value);

/// The value, or the least allowed and a problem noted.
std::int64_t whole(const JsonValue& value, Range range, Problems& problems);
std::string text(const JsonValue& value, Problems& problems);
/// Members of a list, or none and a problem noted. A list of numbers only is not taken: see numbers().
const std::vector<JsonValue>& items(const JsonValue& value, Problems& problems);
/// Whole numbers of a list, each within the range.
std::vector<std::int64_t> numbers(const JsonValue& value, Range range, Problems& problems);

/// An object with exactly these keys, and perhaps the optional ones: any that is missing, and any other, is noted.
class Fields {
public:
    Fields(const JsonValue& value, const std::vector<const char*>& keys, Problems& problems,
           const std::vector<const char*>& optional = {});

    /// The value of a key; null where it is missing.
    [[nodiscard]] const JsonValue& operator[](std::string_view key) const;

private:
    const JsonValue& value_;
};

/// The same in a list sorted by id.
template <typename Item>
std::int32_t index_of_sorted(const JsonValue& value, const std::vector<Item>& list, const char* what,
                             Problems& problems) {
    const std::string id = text(value, problems);
    const auto found = std::lower_bound(list.begin(), list.end(), id,
                                        [](const Item& item, const std::string& wanted) { return item.id < wanted; });
    if (found != list.end() && found->id == id) return static_cast<std::int32_t>(found - list.begin());
    if (value.kind == JsonKind::text) problems.add(value, in_words(value), std::string("the id of ") + what);
    return 0;
}

/// Position in the list of the item with the id that a text names, or 0 and a problem noted.
template <typename Item>
std::int32_t index_of(const JsonValue& value, const std::vector<Item>& list, const char* what, Problems& problems) {
    const std::string id = text(value, problems);
    const auto found = std::find_if(list.begin(), list.end(), [&](const Item& item) { return item.id == id; });
    if (found != list.end()) return static_cast<std::int32_t>(found - list.begin());
    if (value.kind == JsonKind::text) problems.add(value, in_words(value), std::string("the id of ") + what);
    return 0;
}

}  // namespace spadework::json
