#pragma once

// How far the recommended size depends on how fast the site grows.

#include <vector>

#include "scenario/scenario.hpp"
#include "strands/strand_study.hpp"

namespace spadework {

/// A rate of unnamed growth, and what would be right for it.
struct RateOfGrowth {
    double links_per_year = 0;
    bool of_the_site = false;  ///< The rate that the site file gives.
    int recommended = -1;      ///< Index into the study's sizes.
    bool spare_duct = false;
    double sum = 0;            ///< Of the recommended, minor units.
    double chance_enough = 0;  ///< Of the recommended.
};

/// Where the recommendation changes.
struct RateSwitch {
    double links_per_year = 0;  ///< The least rate found at which it is `to`, to a thousandth of a link a year.
    int from = -1;
    int to = -1;
    bool duct_from = false;
    bool duct_to = false;
};

struct GrowthRates {
    std::vector<RateOfGrowth> rates;   ///< Ascending.
    std::vector<RateSwitch> switches;  ///< Ascending; found between neighbouring rates by halving, so that one that is
                                       ///< taken back between two neighbours may be missed.
};

/// How the recommendation of a study moves with the rate of unnamed growth, all else as it is.
GrowthRates recommendations_by_rate(const Scenario& scenario, const TrunkRun& run);

}  // namespace spadework
