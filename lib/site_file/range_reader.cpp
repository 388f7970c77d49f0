#include "site_file/range_reader.hpp"

#include <array>

#include <fmt/format.h>

#include "site_file/fields.hpp"
#include "site_file/keys.hpp"
#include "site_file/plain_number.hpp"

namespace spadework::site_file {

namespace {

constexpr std::string_view three_forms =
    "{low: 40, likely: 50, high: 70}, {low: 40, high: 70} or {chance: 0.2, otherwise: 30, then: 90}";

/// Reports keys that do not go with the form of the range; whether there were any.
template <std::size_t Count>
bool has_any(const Fields& fields, const std::array<std::string_view, Count>& keys, std::string_view why,
             Reading& reading) {
    bool any = false;
    for (const std::string_view key : keys) {
        if (!fields.has(key)) continue;
        reading.error(fields.position(key), fmt::format("key '{}' in a range {}", key, why), std::string(three_forms));
        any = true;
    }
    return any;
}

/// Reports keys that the form of the range needs and that are missing; whether there were any.
template <std::size_t Count>
bool lacks_any(const Fields& fields, const std::array<std::string_view, Count>& keys, Reading& reading) {
    bool any = false;
    for (const std::string_view key : keys) {
        if (fields.has(key)) continue;
        reading.error(fields.position(), fmt::format("key '{}' is missing in a range", key), std::string(three_forms));
        any = true;
    }
    return any;
}

std::optional<Range> read_two_point(Fields& fields, Reading& reading) {
    constexpr std::array<std::string_view, 5> others = {"low", "likely", "high", "shape", "tails"};
    constexpr std::array<std::string_view, 3> needed = {"chance", "otherwise", "then"};
    const bool mixed = has_any(fields, others, "with a chance", reading);
    if (lacks_any(fields, needed, reading) || mixed) return std::nullopt;
    const double otherwise = fields.number("otherwise");
    const double then = fields.number("then");
    return two_point_range(otherwise, then, fields.number("chance"));
}

/// Reports figures that are not in order; whether they are.
bool in_order(Fields& fields, std::string_view first, std::string_view second, Reading& reading) {
    const double lower = fields.number(first);
    const double upper = fields.number(second);
    if (lower <= upper) return true;
    reading.error(fields.position(first),
                  fmt::format("{} {} is above {} {}", first, decimal_text(lower), second, decimal_text(upper)),
                  "the smaller figure first");
    return false;
}

std::optional<Range> read_three_point(Fields& fields, double tails, Reading& reading) {
    const bool low_in_order = in_order(fields, "low", "likely", reading);
    if (!in_order(fields, "likely", "high", reading) || !low_in_order) return std::nullopt;
    const double low = fields.number("low");
    const double likely = fields.number("likely");
    const double high = fields.number("high");
    if (fields.choice("shape") == 1) {
        if (tails == 0) return pert_range(low, likely, high);
        reading.error(fields.position("tails"), "tails in a range of shape pert", "its ends as low and high");
        return std::nullopt;
    }
    const auto range = triangular_range(low, likely, high, tails);
    if (!range) {
        reading.error(fields.position("likely"), "a likely figure at an end of a range that has tails",
                      "a likely figure between low and high, or no tails");
    }
    return range;
}

std::optional<Range> read_ends(Fields& fields, Reading& reading) {
    constexpr std::array<std::string_view, 2> others = {"otherwise", "then"};
    constexpr std::array<std::string_view, 2> needed = {"low", "high"};
    const bool mixed = has_any(fields, others, "without a chance", reading);
    if (lacks_any(fields, needed, reading) || mixed) return std::nullopt;
    const double tails = fields.number("tails") / 100;
    if (fields.has("likely")) return read_three_point(fields, tails, reading);
    constexpr std::array<std::string_view, 1> shape = {"shape"};
    if (has_any(fields, shape, "without a likely figure", reading)) return std::nullopt;
    if (!in_order(fields, "low", "high", reading)) return std::nullopt;
    const double low = fields.number("low");
    return uniform_range(low, fields.number("high"), tails);
}

std::size_t problems(const Reading& reading) {
    return reading.diagnostics.size() + reading.not_listed;
}

}  // namespace

std::optional<UncertainValue> read_range(Reading& reading, const Document& document, NodeId node, const Key& key,
                                         const std::string& path) {
    const std::size_t before = problems(reading);
    Fields fields(reading, document, node, range_record(), "");
    UncertainValue value;
    value.key = path;
    value.unit = unit_text(key.unit, reading.feet, reading.currency.code);
    value.group = fields.id("group");
    const auto range = fields.has("chance") ? read_two_point(fields, reading) : read_ends(fields, reading);
    if (!range || problems(reading) != before) return std::nullopt;
    value.range = *range;
    return value;
}

std::string in_words(const UncertainValue& value) {
    const Range& range = value.range;
    const std::string low = decimal_text(range.low);
    const std::string high = decimal_text(range.high);
    std::string text;
    switch (range.shape) {
        case RangeShape::uniform:
            text = fmt::format("{} to {}, all as likely", low, high);
            break;
        case RangeShape::triangular:
            text = fmt::format("{} to {}, likely {}, triangular", low, high, decimal_text(range.likely));
            break;
        case RangeShape::pert:
            text = fmt::format("{} to {}, likely {}, pert", low, high, decimal_text(range.likely));
            break;
        case RangeShape::two_point:
            text = fmt::format("{} with a chance of {}, else {}", high, decimal_text(range.chance_of_high), low);
            break;
    }
    return value.group.empty() ? text : text + ", group " + value.group;
}

}  // namespace spadework::site_file
