#include "support/decimal.hpp"

#include <charconv>

namespace spadework::bench {

namespace {

constexpr int kMostPlaces = 18;

bool append_digit(std::int64_t& digits, char c) {
    return !__builtin_mul_overflow(digits, 10, &digits) && !__builtin_add_overflow(digits, c - '0', &digits);
}

}  // namespace

std::optional<Decimal> read_decimal(std::string_view text) {
    Decimal number;
    bool any_digit = false;
    bool after_point = false;
    std::size_t i = 0;
    for (; i < text.size() && text[i] != 'e' && text[i] != 'E'; ++i) {
        if (text[i] == '.' && !after_point) {
            after_point = true;
            continue;
        }
        if (text[i] < '0' || text[i] > '9' || !append_digit(number.digits, text[i])) return std::nullopt;
        any_digit = true;
        number.places += after_point ? 1 : 0;
    }
    if (!any_digit) return std::nullopt;
    if (i < text.size()) {
        int exponent = 0;
        const char* end = text.data() + text.size();
        const auto read = std::from_chars(text.data() + i + 1, end, exponent);
        if (read.ec != std::errc() || read.ptr != end || exponent > kMostPlaces || exponent < -kMostPlaces) {
            return std::nullopt;
        }
        number.places -= exponent;
    }
    while (number.places > 0 && number.digits % 10 == 0) {
        number.digits /= 10;
        --number.places;
    }
    for (; number.places < 0; ++number.places) {
        if (!append_digit(number.digits, '0')) return std::nullopt;
    }
    if (number.places > kMostPlaces) return std::nullopt;
    return number;
}

std::optional<std::int64_t> scaled(const Decimal& number, int places) {
    std::int64_t value = number.digits;
    if (places < number.places) return std::nullopt;
    for (int p = number.places; p < places; ++p) {
        if (!append_digit(value, '0')) return std::nullopt;
    }
    return value;
}

}  // namespace spadework::bench
