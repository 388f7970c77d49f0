#pragma once

// Decimal numbers as written, kept exact.

#include <cstdint>
#include <optional>
#include <string_view>

namespace spadework::bench {

/// digits / 10^places, never negative.
struct Decimal {
    std::int64_t digits = 0;
    int places = 0;
};

/// Reads "12", "12.50", "1e3" or "2.5e-1"; nothing for anything else, for signs, or beyond 18 digits.
std::optional<Decimal> read_decimal(std::string_view text);

/// The number times 10^places as a whole number; nothing when it does not fit or is not whole.
std::optional<std::int64_t> scaled(const Decimal& number, int places);

}  // namespace spadework::bench
