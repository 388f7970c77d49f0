#pragma once

#include <string>
#include <string_view>

#include "site_file/document.hpp"

namespace spadework::site_file {

/// A number read from text, or why it is none.
struct PlainNumber {
    double value = 0;
    std::string problem;  ///< "it has a leading zero"; empty for a number.
};

/// Reads a plain decimal number: digits, perhaps a point with digits behind it, perhaps a minus sign. JSON texts may
/// also have an exponent (RFC 8259 section 6). Everything that readers of YAML disagree about is refused by name:
/// leading zeros (octal), 0x, 1:30 (sexagesimal), 1_000, .5, 5., +5, .inf and .nan.
PlainNumber plain_number(std::string_view text, Syntax syntax);

/// The shortest decimal text of a number that reads back as the same, without an exponent.
std::string decimal_text(double value);

}  // namespace spadework::site_file
