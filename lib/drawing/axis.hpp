#pragma once

#include <functional>
#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::drawing {

/// Marks at round values from 0: steps of 1, 2 or 5 times a power of ten.
struct RoundTicks {
    double step = 1;
    std::vector<double> at;  ///< Ascending from 0; the last is at or above what the axis has to hold.
    [[nodiscard]] double last() const { return at.back(); }
};

/// Ticks for an axis from 0 to `most`, with about `wanted` steps. `most` not above 0 counts as 1.
RoundTicks round_ticks(double most, int wanted);

/// The largest of 1, 2 or 5 times a power of ten that is at most `value`; `value` must be above 0.
double round_below(double value);

/// A round value without needless digits, grouped: "0", "2,500", "0.25".
std::string tick_text(double value, double step);

/// Money in whole major units where the steps are whole, from minor units.
std::string money_tick_text(double minor, double step_minor, const Currency& currency);

}  // namespace spadework::drawing
