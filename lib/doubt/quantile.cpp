#include "doubt/quantile.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/beta.hpp>

namespace spadework {

namespace {

double of_triangle(const Range& range, double u) {
    const double width = range.high - range.low;
    const double rising = (range.likely - range.low) / width;
    if (u < rising) return range.low + std::sqrt(u * width * (range.likely - range.low));
    return range.high - std::sqrt((1 - u) * width * (range.high - range.likely));
}

double of_pert(const Range& range, double u) {
    const double width = range.high - range.low;
    const boost::math::beta_distribution<double> beta(1 + 4 * (range.likely - range.low) / width,
                                                      1 + 4 * (range.high - range.likely) / width);
    return range.low + width * boost::math::quantile(beta, u);
}

}  // namespace

double quantile(const Range& range, double u) {
    if (range.low == range.high) return range.low;
    double value = 0;
    switch (range.shape) {
        case RangeShape::uniform:
            value = range.low + (range.high - range.low) * u;
            break;
        case RangeShape::triangular:
            value = of_triangle(range, u);
            break;
        case RangeShape::pert:
            value = of_pert(range, u);
            break;
        case RangeShape::two_point:
            return u > 1 - range.chance_of_high ? range.high : range.low;
    }
    return std::clamp(value, range.low, range.high);
}

std::vector<Driver> drivers_of(const std::vector<UncertainValue>& values) {
    std::vector<Driver> drivers;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const std::string& group = values[i].group;
        const auto same = std::find_if(drivers.begin(), drivers.end(),
                                       [&](const Driver& driver) { return driver.is_group && driver.name == group; });
        if (group.empty() || same == drivers.end()) {
            drivers.push_back({group.empty() ? values[i].key : group, !group.empty(), {static_cast<int>(i)}});
        } else {
            same->values.push_back(static_cast<int>(i));
        }
    }
    return drivers;
}

std::vector<double> numbers_at(const std::vector<UncertainValue>& values, const std::vector<Driver>& drivers,
                               const double* at) {
    std::vector<double> numbers(values.size());
    for (std::size_t d = 0; d < drivers.size(); ++d) {
        for (const int value : drivers[d].values)
            numbers[static_cast<std::size_t>(value)] = quantile(values[static_cast<std::size_t>(value)].range, at[d]);
    }
    return numbers;
}

}  // namespace spadework
