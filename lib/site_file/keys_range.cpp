#include "site_file/keys.hpp"

namespace spadework::site_file {

namespace {

constexpr double largest = 1e9;

constexpr Key number(std::string_view name, std::string_view source, std::string_view meaning) {
    return {.name = name,
            .type = ValueType::number,
            .least = -largest,
            .most = largest,
            .source = source,
            .ranges = Ranges::no,
            .meaning = meaning};
}

}  // namespace

const Record& range_record() {
    static const Key keys[] = {
        number("low", "none: needed with `high`", "The low figure, in the unit of the value."),
        number("likely", "none: all between low and high are as likely", "The most likely figure."),
        number("high", "none: needed with `low`", "The high figure."),
        {.name = "shape",
         .type = ValueType::choice,
         .fallback = "triangular",
         .source = "the format's own choice",
         .choices = "triangular pert",
         .meaning = "Of a range with a likely figure: a triangle, or a beta distribution with the mean "
                    "(low + 4 likely + high) / 6 (PERT: Malcolm, Roseboom, Clark and Fazar 1959)."},
        {.name = "tails",
         .type = ValueType::number,
         .unit = Unit::percent,
         .most = 40,
         .fallback = "0",
         .source = "low and high are the ends",
         .meaning = "How many of all cases lie below the low figure, and as many above the high one; 10 makes them the "
                    "10 % and the 90 % figure. Not with `shape: pert`."},
        {.name = "chance",
         .type = ValueType::number,
         .most = 1,
         .source = "none: needed with `then`",
         .meaning = "Chance of the case that makes it `then`."},
        number("otherwise", "none: needed with `chance`", "The value without that case."),
        number("then", "none: needed with `chance`", "The value in that case."),
        {.name = "group",
         .type = ValueType::id,
         .source = "it moves alone",
         .meaning = "All ranges of one group move together: each stands at the same quantile of its own distribution."},
    };
    static const Record record = {"a range", "RANGE", keys};
    return record;
}

}  // namespace spadework::site_file
