#include "drawing/axis.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "comparison/money_words.hpp"

namespace spadework::drawing {

namespace {

/// Digits behind the point that a multiple of `step` needs.
int digits_for(double step) {
    if (!(step > 0) || step >= 1) return 0;
    return std::min(6, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
}

}  // namespace

double round_below(double value) {
    const double power = std::pow(10.0, std::floor(std::log10(value) + 1e-12));
    for (const double factor : {5.0, 2.0}) {
        if (factor * power <= value * (1 + 1e-12)) return factor * power;
    }
    return power;
}

RoundTicks round_ticks(double most, int wanted) {
    if (!(most > 0) || !std::isfinite(most)) most = 1;
    const double least_step = most / std::max(wanted, 1);
    const double power = std::pow(10.0, std::floor(std::log10(least_step) + 1e-12));
    RoundTicks ticks;
    ticks.step = 10 * power;
    for (const double factor : {5.0, 2.0, 1.0}) {
        if (factor * power >= least_step * (1 - 1e-12)) ticks.step = factor * power;
    }
    const auto steps = std::max(1, static_cast<int>(std::ceil(most / ticks.step - 1e-9)));
    for (int i = 0; i <= steps; ++i)
        ticks.at.push_back(i * ticks.step);
    return ticks;
}

std::string tick_text(double value, double step) {
    return grouped(fmt::format("{:.{}f}", value, digits_for(step)));
}

std::string money_tick_text(double minor, double step_minor, const Currency& currency) {
    const double unit = std::pow(10.0, currency.minor_digits);
    return tick_text(minor / unit, step_minor / unit);
}

}  // namespace spadework::drawing
