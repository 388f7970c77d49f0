#pragma once

#include <string>
#include <string_view>

#include "scenario/scenario.hpp"

namespace spadework::survey {

/// A text as a scalar of YAML 1.2 that stands anywhere, also within [ ] and { }: as it is where every reader takes that
/// for the same text, else in double quotes.
std::string yaml_scalar(std::string_view text);

/// Appends "[-77.160263, 39.101741]", at most seven digits behind the point, none of them a 0 at the end.
void append_position(std::string& text, const Position& degrees);

/// Every line of a text that is not empty with so many spaces before it.
std::string indented(std::string_view text, int spaces);

}  // namespace spadework::survey
