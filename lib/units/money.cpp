#include "units/money.hpp"

#include <cmath>

namespace spadework {

namespace {

__extension__ using Wide = __int128;

/// numerator / denominator rounded half up; denominator > 0.
std::int64_t divide_half_up(Wide numerator, std::int64_t denominator) {
    const Wide doubled = 2 * numerator + denominator;
    Wide quotient = doubled / (2 * static_cast<Wide>(denominator));
    if (doubled % (2 * static_cast<Wide>(denominator)) < 0) quotient -= 1;
    return static_cast<std::int64_t>(quotient);
}

constexpr std::int64_t thousandths_per_minor = 1000;
constexpr std::int64_t millimetres_per_metre = 1000;
constexpr std::int64_t seconds_per_hour = 3600;

}  // namespace

UnitPrice UnitPrice::from_minor(double minor_units) {
    return UnitPrice(std::llround(minor_units * static_cast<double>(thousandths_per_minor)));
}

Money amount(UnitPrice per_metre, Length length) {
    return Money::from_minor(divide_half_up(static_cast<Wide>(per_metre.thousandths()) * length.millimetres(),
                                            thousandths_per_minor * millimetres_per_metre));
}

Money amount(UnitPrice per_hour, WorkTime time) {
    return Money::from_minor(divide_half_up(static_cast<Wide>(per_hour.thousandths()) * time.seconds(),
                                            thousandths_per_minor * seconds_per_hour));
}

Money amount(UnitPrice per_piece, std::int64_t pieces) {
    return Money::from_minor(
        divide_half_up(static_cast<Wide>(per_piece.thousandths()) * pieces, thousandths_per_minor));
}

Percent Percent::from_percent(double percent) {
    return Percent(std::llround(percent * 1000.0));
}

Money share_of(Money money, Percent percent) {
    return Money::from_minor(divide_half_up(static_cast<Wide>(money.minor()) * percent.thousandths(), 100000));
}

std::string decimal_text(Money money, const Currency& currency) {
    const bool negative = money.minor() < 0;
    // Unsigned so that the most negative amount has a magnitude.
    const std::uint64_t magnitude =
        negative ? 0 - static_cast<std::uint64_t>(money.minor()) : static_cast<std::uint64_t>(money.minor());
    std::string digits = std::to_string(magnitude);
    const auto behind_point = static_cast<std::size_t>(currency.minor_digits);
    if (digits.size() <= behind_point) digits.insert(0, behind_point + 1 - digits.size(), '0');
    if (behind_point > 0) digits.insert(digits.size() - behind_point, ".");
    return negative ? "-" + digits : digits;
}

}  // namespace spadework
