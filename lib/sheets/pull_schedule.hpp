#pragma once

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "units/length.hpp"

namespace spadework {

/// A stretch of a cable between two points where it can be reached: its ends and the handholes and poles it passes.
struct PullStretch {
    PlaceIndex from = 0;
    PlaceIndex to = 0;
    Length length;              ///< Along the map.
    int bends = 0;              ///< Turns of 45 degrees or more.
    double turned_degrees = 0;  ///< All turns together.
};

/// How one cable is pulled.
struct CablePull {
    int cable = 0;  ///< Index into the plan's cables.
    std::vector<PullStretch> stretches;
    Length longest;              ///< Longest stretch.
    Length radius_pulling;       ///< Least bend radius under tension: 20 diameters (7 CFR 1755.200).
    Length radius_installed;     ///< At rest: 10 diameters (ANSI/TIA-568.3; value from memory).
    double most_tension_n = 0;   ///< By the cable's maker, or else the usual 2669 N (7 CFR 1755.200).
    std::string tension_source;  ///< "the catalogue", "7 CFR 1755.200".
};

/// One entry a cable, in the plan's order: longest way first is how crews like to pull, so `order` in a list of them is
/// theirs to choose.
std::vector<CablePull> pull_schedule(const Scenario& scenario, const Plan& plan);

}  // namespace spadework
