#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/money.hpp"

namespace spadework::site_file {

/// The currency of an ISO 4217 letter code, with its number of digits behind the point; nothing for unknown codes.
/// Codes and digits from memory of ISO 4217, checked against the locale data of the GNU C library.
std::optional<Currency> currency_of(std::string_view code);

/// Every known code, in alphabetical order.
std::vector<std::string> currency_codes();

}  // namespace spadework::site_file
