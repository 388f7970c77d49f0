#include "scenario/range.hpp"

#include <algorithm>
#include <cmath>

namespace spadework {

namespace {

/// How far the foot of a triangle stands from its peak when the other foot is `other` away and a share `tails` of the
/// whole lies beyond `stated`: the larger root of (x - stated)^2 = tails x (x + other), from the triangle's
/// distribution function.
double foot(double stated, double other, double tails) {
    const double a = 1 - tails;
    const double half_b = stated + tails * other / 2;
    return (half_b + std::sqrt(std::max(0.0, half_b * half_b - a * stated * stated))) / a;
}

}  // namespace

std::optional<Range> triangular_range(double low, double likely, double high, double tails) {
    Range range{RangeShape::triangular, low, likely, high, 0};
    if (tails <= 0) return range;
    if (low >= likely || likely >= high) return std::nullopt;
    // Each foot depends on the other; both only grow from round to round, and by less each time.
    constexpr int most_rounds = 10'000;
    double left = likely - low;
    double right = high - likely;
    for (int round = 0; round < most_rounds; ++round) {
        const double next_left = foot(likely - low, right, tails);
        const double next_right = foot(high - likely, next_left, tails);
        const bool settled = next_left - left <= 1e-13 * next_left && next_right - right <= 1e-13 * next_right;
        left = next_left;
        right = next_right;
        if (settled) break;
    }
    range.low = likely - left;
    range.high = likely + right;
    return range;
}

Range uniform_range(double low, double high, double tails) {
    const double beyond = (high - low) * tails / (1 - 2 * tails);
    return {RangeShape::uniform, low - beyond, (low + high) / 2, high + beyond, 0};
}

Range pert_range(double low, double likely, double high) {
    return {RangeShape::pert, low, likely, high, 0};
}

Range two_point_range(double otherwise, double then, double chance) {
    Range range{RangeShape::two_point, otherwise, otherwise, then, chance};
    if (chance > 0.5) range.likely = then;
    if (then < otherwise) {
        std::swap(range.low, range.high);
        range.chance_of_high = 1 - chance;
    }
    return range;
}

}  // namespace spadework
