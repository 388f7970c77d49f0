#include "units/bit_rate.hpp"

#include <charconv>

namespace spadework {

std::optional<BitRate> bit_rate_from_text(std::string_view text) {
    if (text.size() < 2 || (text.back() != 'M' && text.back() != 'G')) return std::nullopt;
    const bool giga = text.back() == 'G';
    const char* const end = text.data() + text.size() - 1;
    std::int64_t megabits = 0;
    if (*text.data() < '0' || *text.data() > '9') return std::nullopt;
    auto [stop, error] = std::from_chars(text.data(), end, megabits);
    if (error != std::errc() || megabits > 1'000'000) return std::nullopt;
    if (giga) megabits *= 1000;
    if (stop != end) {
        // Digits behind the point, counted in whole megabits: at most three of them, and only of gigabits.
        const auto digits = end - stop - 1;
        if (*stop != '.' || !giga || digits < 1 || digits > 3) return std::nullopt;
        std::int64_t scale = 100;
        for (const char* digit = stop + 1; digit != end; ++digit, scale /= 10) {
            if (*digit < '0' || *digit > '9') return std::nullopt;
            megabits += (*digit - '0') * scale;
        }
    }
    if (megabits <= 0) return std::nullopt;
    return BitRate::from_megabits(megabits);
}

std::string to_text(BitRate rate) {
    const std::int64_t megabits = rate.megabits();
    if (megabits < 1000) return std::to_string(megabits) + "M";
    std::string text = std::to_string(megabits / 1000);
    if (megabits % 1000 != 0) {
        std::string rest = std::to_string(1000 + megabits % 1000).substr(1);
        rest.erase(rest.find_last_not_of('0') + 1);
        text += "." + rest;
    }
    return text + "G";
}

}  // namespace spadework
