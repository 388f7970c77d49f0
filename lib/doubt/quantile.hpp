#pragma once

// What a range is worth at a quantile.

#include <string>
#include <vector>

#include "scenario/range.hpp"

namespace spadework {

/// The value that a share `u` (above 0, below 1) of all cases do not exceed: the inverse of the distribution function.
/// Triangular: Kotz and van Dorp, Beyond Beta (2004), section 1.3. PERT: low + (high - low) B, where B is beta
/// distributed with shapes 1 + 4 (likely - low) / (high - low) and 1 + 4 (high - likely) / (high - low), so that the
/// mean is (low + 4 likely + high) / 6 (Malcolm, Roseboom, Clark and Fazar 1959; shapes after Vose 2008). Two-point:
/// the higher value from 1 - chance on.
double quantile(const Range& range, double u);

/// Ranges that move together, or one that moves alone: one source of uncertainty.
struct Driver {
    std::string name;  ///< The group, or the key.
    bool is_group = false;
    std::vector<int> values;  ///< Indices into the site's ranges, ascending.
    friend bool operator==(const Driver&, const Driver&) = default;
};

/// In the order in which they first appear.
std::vector<Driver> drivers_of(const std::vector<UncertainValue>& values);

/// One number a range, where driver d stands at quantile `at[d]`. All values of a driver stand at the same quantile.
std::vector<double> numbers_at(const std::vector<UncertainValue>& values, const std::vector<Driver>& drivers,
                               const double* at);

}  // namespace spadework
