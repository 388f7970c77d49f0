#pragma once

#include <string>

#include "units/money.hpp"

namespace spadework {

/// A decimal number with a comma between groups of three digits: "-1234567.50" becomes "-1,234,567.50".
std::string grouped(std::string decimal);

/// Money for people: "EUR 12,345.60".
std::string money_in_words(Money money, const Currency& currency);

}  // namespace spadework
