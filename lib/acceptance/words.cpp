#include "acceptance/words.hpp"

#include <fmt/format.h>

#include "acceptance/acceptance.hpp"

namespace spadework::acceptance {

namespace {

/// Thousandths as a decimal, zeros dropped down to `least` digits behind the point.
std::string decimal(std::int64_t thousandths, std::size_t least) {
    const bool negative = thousandths < 0;
    const auto size = negative ? 0 - static_cast<std::uint64_t>(thousandths) : static_cast<std::uint64_t>(thousandths);
    std::string text = fmt::format("{}{}.{:03}", negative ? "-" : "", size / 1000, size % 1000);
    const std::size_t point = text.find('.');
    while (text.size() > point + 1 + least && text.back() == '0')
        text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

}  // namespace

std::string decibels(std::int64_t mdb) {
    return decimal(mdb, 2);
}

std::string nanometres(std::int64_t pm) {
    return decimal(pm, 0);
}

std::string length_in_words(Length length, bool feet) {
    return feet ? fmt::format("{:.1f} ft", length.feet()) : fmt::format("{:.1f} m", length.metres());
}

std::string strand_in_words(const plan_file::ReadingKey& key) {
    return fmt::format("{} link {} strand {}", key.building, key.link, key.leg);
}

}  // namespace spadework::acceptance
