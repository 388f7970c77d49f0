#pragma once

// The part of JSON (RFC 8259) that certificates and plan files are written in: objects, lists, texts, whole numbers and
// null. No fractions, no exponents, no true or false, no key twice.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diagnostics/diagnostic.hpp"

namespace spadework::json {

enum class JsonKind { null, number, text, list, object };

struct JsonMember;

struct JsonValue {
    JsonKind kind = JsonKind::null;
    int line = 0;
    int column = 0;
    std::int64_t number = 0;
    std::string text;
    std::vector<JsonValue> items;
    /// Of a list of two and more whole numbers and nothing else: the numbers. Then `items` is empty.
    std::vector<std::int64_t> numbers;
    std::vector<JsonMember> members;  ///< In the order of the file.
};

struct JsonMember {
    std::string key;
    JsonValue value;
};

/// The value of a whole text, or nothing and the first problem in `diagnostics`: text that is not JSON of this kind, a
/// number of more than 64 bits, lists within lists more than 16 deep, or more than 4 million values.
std::optional<JsonValue> parse_json(const std::string& file, std::string_view text, Diagnostics& diagnostics);

/// The same of a text that has to be an object: where it begins otherwise, the problem says that `what`, "a plan file",
/// is wanted.
std::optional<JsonValue> parse_object(const std::string& file, std::string_view text, std::string_view what,
                                      Diagnostics& diagnostics);

}  // namespace spadework::json
