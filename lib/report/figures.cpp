#include "report/figures.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "comparison/money_words.hpp"

namespace spadework::report {

namespace {

/// Drops zeros from the end, but leaves `least` digits behind the point.
std::string trimmed(std::string decimal, std::size_t least) {
    const std::size_t point = decimal.find('.');
    while (point != std::string::npos && decimal.size() > point + 1 + least && decimal.back() == '0')
        decimal.pop_back();
    if (decimal.back() == '.') decimal.pop_back();
    return decimal == "-0" ? "0" : decimal;
}

/// Fixed digits, and no minus sign before a value that prints as 0.
std::string fixed(double value, int digits) {
    std::string text = fmt::format("{:.{}f}", value, digits);
    if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
    return text;
}

}  // namespace

std::string figure(double value, int digits) {
    return std::isfinite(value) ? grouped(fixed(value, digits)) : "-";
}

std::string figure(std::int64_t value) {
    return grouped(std::to_string(value));
}

std::string figure(Money money, const Currency& currency) {
    return grouped(decimal_text(money, currency));
}

std::string figure(UnitPrice price, const Currency& currency) {
    return grouped(plain(price, currency));
}

const char* length_unit(const Scenario& scenario) {
    return scenario.feet ? "ft" : "m";
}

UnitPrice price_a_length_unit(UnitPrice per_metre, const Scenario& scenario) {
    if (!scenario.feet) return per_metre;
    return UnitPrice::from_thousandths(std::llround(static_cast<double>(per_metre.thousandths()) * 0.3048));
}

std::string figure(Length length, const Scenario& scenario) {
    return figure(scenario.feet ? length.feet() : length.metres(), 1);
}

std::string figure(WorkTime time) {
    return figure(time.hours(), 1);
}

std::string plain(Length length, const Scenario& scenario) {
    return scenario.feet ? plain(length.feet(), 3) : plain_metres(length);
}

std::string plain_metres(Length length) {
    return trimmed(decimal_text(Money::from_minor(length.millimetres()), Currency{"", 3}), 0);
}

std::string plain(UnitPrice price, const Currency& currency) {
    const Currency finer{currency.code, currency.minor_digits + 3};
    return trimmed(decimal_text(Money::from_minor(price.thousandths()), finer),
                   static_cast<std::size_t>(currency.minor_digits));
}

std::string plain(double value, int most_digits) {
    return std::isfinite(value) ? trimmed(fixed(value, most_digits), 0) : "";
}

std::string plain_exact(double value) {
    if (!std::isfinite(value)) return "";
    const std::string shortest = fmt::format("{}", value);
    const std::size_t exponent = shortest.find('e');
    if (exponent == std::string::npos) return trimmed(shortest, 0);
    constexpr int significant_digits = 17;
    const int digits = std::max(0, significant_digits - std::stoi(shortest.substr(exponent + 1)));
    return trimmed(fixed(value, digits), 0);
}

}  // namespace spadework::report
