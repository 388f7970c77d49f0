#pragma once

#include <optional>
#include <vector>

namespace spadework::bench {

/// One measurement: how large, how long. Both above 0.
struct SizeAndTime {
    double size = 0;
    double seconds = 0;
};

/// seconds = factor * size^exponent.
struct PowerLaw {
    double factor = 0;
    double exponent = 0;
    double spread = 0;  ///< Root mean square of ln(seconds) off the line: 0.1 is about 10 %.
};

/// Least squares on the logarithms. Nothing where there are fewer than two sizes.
std::optional<PowerLaw> fitted_power_law(const std::vector<SizeAndTime>& points);

}  // namespace spadework::bench
