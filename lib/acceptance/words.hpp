#pragma once

#include <cstdint>
#include <string>

#include "units/length.hpp"

namespace spadework::acceptance {

/// Thousandths of a decibel as "1.25" with two or three digits.
std::string decibels(std::int64_t mdb);
/// Picometres as nanometres, "1310" or "1550.12".
std::string nanometres(std::int64_t pm);
/// "149.6 m", or "490.8 ft": to a tenth.
std::string length_in_words(Length length, bool feet);

}  // namespace spadework::acceptance
