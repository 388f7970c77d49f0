#include "units/bit_rate.hpp"

#include <charconv>
#include <cmath>

namespace spadework {

std::optional<BitRate> bit_rate_from_text(std::string_view text) {
    if (text.size() < 2) return std::nullopt;
    const char unit = text.back();
    if (unit != 'M' && unit != 'G') return std::nullopt;
    double number = 0;
    const char* end = text.data() + text.size() - 1;
    const auto [stop, error] = std::from_chars(text.data(), end, number, std::chars_format::fixed);
    if (error != std::errc() || stop != end || !(number > 0) || number > 1e6) return std::nullopt;
    const double megabits = unit == 'G' ? number * 1000.0 : number;
    if (megabits != std::floor(megabits)) return std::nullopt;
    return BitRate::from_megabits(static_cast<std::int64_t>(megabits));
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
