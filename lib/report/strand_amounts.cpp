#include "report/strand_amounts.hpp"

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"

namespace spadework::report {

namespace {

/// Well within 63 bits, so that nothing overflows.
constexpr double largest = 4e18;

}  // namespace

Money whole_money(double minor) {
    return Money::from_minor(std::llround(std::clamp(minor, -largest, largest)));
}

UnitPrice trunk_price(double minor) {
    return UnitPrice::from_thousandths(std::llround(std::clamp(minor * 1000.0, -largest, largest)));
}

std::string trunk_amount(double minor, const Scenario& scenario, const TrunkRun& run) {
    if (run.planned) return figure(whole_money(minor), scenario.currency);
    return figure(price_a_length_unit(trunk_price(minor), scenario), scenario.currency);
}

}  // namespace spadework::report
