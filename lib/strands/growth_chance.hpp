#pragma once

// How much a site may grow, as chances: named buildings that come or do not, and unnamed links that come at a yearly
// rate.

#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// Chance of each whole number from 0 up. What lies beyond the last entry is below 1e-15.
using Distribution = std::vector<double>;

/// Chance of exactly k successes among independent trials that each count `sizes[i]` with chance `chances[i]`: the
/// Poisson-binomial distribution by direct convolution, exact up to rounding. Result has sum(sizes) + 1 entries.
Distribution weighted_poisson_binomial(const std::vector<double>& chances, const std::vector<int>& sizes);

/// Chance of exactly k events where `mean` are expected (NIST/SEMATECH e-Handbook 1.3.6.6.19, section from memory):
/// e^-mean mean^k / k!. `mean` must be 0 or more and finite. Cut off where the rest is below 1e-15.
Distribution poisson(double mean);

/// Chance that the number is no more than `most`; 0 for a negative one.
double chance_at_most(const Distribution& distribution, int most);

/// The least number that is not exceeded with at least that chance, which must be below 1.
int least_with_chance(const Distribution& distribution, double chance);

/// Strands that the named buildings due by the end of a year from now will need. A named building comes in its year
/// with its chance or does not come at all; those due beyond the horizon are left out.
Distribution named_growth(const Scenario& scenario, int year);

/// Strands that all growth will need by the end of a year from now: the named buildings', and those of unnamed links,
/// which come independently of each other at growth.unnamed_links_per_year (Poisson). None of these in year 0.
Distribution all_growth(const Scenario& scenario, int year);

}  // namespace spadework
