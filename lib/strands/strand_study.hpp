#pragma once

// How many strands a trunk should hold: the need link by link, and every cable size on offer against it.

#include <string>
#include <vector>

#include "scenario/scenario.hpp"
#include "strands/strand_need.hpp"
#include "units/money.hpp"

namespace spadework {

struct BuildingStrands {
    BuildingIndex building = 0;
    int links = 0;
    int strands = 0;
};

struct CableSizeOption {
    int product = 0;  ///< Index into catalogue.cables.
    UnitPrice price_per_metre;
    int spare_strands = 0;        ///< Beyond those in use; negative when too small.
    double headroom_percent = 0;  ///< Spare strands in percent of those in use.
    double chance_enough = 0;     ///< That the named growth to the horizon fits, 0 to 1. Exact (Poisson-binomial).
    bool meets_policy = false;    ///< Holds use, spares and headroom.
};

struct StrandStudy {
    std::vector<BuildingStrands> buildings;
    StrandNeed need;                          ///< Of one trunk that serves all buildings.
    std::vector<double> growth_distribution;  ///< Chance that named growth needs exactly k strands more.
    std::vector<CableSizeOption> sizes;       ///< Ascending in strands.
    int recommended = -1;                     ///< Index into sizes; -1 when no size meets the policy.
    std::string reason;                       ///< Why that one.
};

StrandStudy study_strands(const Scenario& scenario);

/// Chance of exactly k successes among independent trials that each count `sizes[i]` with chance `chances[i]`: the
/// Poisson-binomial distribution by direct convolution, exact up to rounding. Result has sum(sizes) + 1 entries.
std::vector<double> weighted_poisson_binomial(const std::vector<double>& chances, const std::vector<int>& sizes);

}  // namespace spadework
