#pragma once

// Small questions about text, shared by the readers.

#include <optional>
#include <string>
#include <string_view>

#include "diagnostics/shown_text.hpp"

namespace spadework::drawn_map {

/// A decimal number with a point, perhaps with a sign and an exponent, and white space around it. Nothing where it is
/// none, where more stands beside it, or where it does not fit a double: "nan" and "inf" are no numbers here.
std::optional<double> decimal_number(std::string_view text);

/// The text without white space at its ends.
std::string_view trimmed(std::string_view text);

/// Small letters in place of the capitals A to Z.
std::string small_letters(std::string_view text);

/// A text as one line for people.
struct OneLine {
    std::string text;            ///< White space runs are one space each, none at the ends.
    int control_characters = 0;  ///< Left out: U+0000 to U+001F save white space, U+007F to U+009F.
};
OneLine one_line(std::string_view text);

}  // namespace spadework::drawn_map
