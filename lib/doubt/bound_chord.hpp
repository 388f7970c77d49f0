#pragma once

// Lower bounds between prices at which they were proved.

#include <cstdint>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// How far the total of any plan of a site can be, in minor units, from one that is linear in a price: what rounds on
/// the way is every line to a minor unit, every price to a thousandth of one, and every working time to a second. An
/// amount that no plan passes: it counts every segment, every cable through every segment, and every piece of gear.
double most_rounding(const Scenario& scenario);

/// A bound that was proved with an input at `x`, minor units.
struct ProvedAt {
    double x = 0;
    std::int64_t bound = 0;
};

/// A bound at `x`, from bounds at or around it, ascending by x. Every plan's total is linear in a price but for
/// rounding, and the least of linear functions is concave: so that what all plans cost lies above the chord between two
/// bounds, less twice the most that rounding makes. 0 beyond the last bounds on either side.
std::int64_t bound_between(const std::vector<ProvedAt>& proved, double x, double rounding);

}  // namespace spadework
