#pragma once

// What policies from practice would have a trunk on this site hold, beside the site's own.

#include <string>
#include <vector>

#include "scenario/scenario.hpp"
#include "strands/strand_study.hpp"

namespace spadework {

struct SparePolicy {
    std::string name;    ///< "25 % spare, 12 strands at least".
    std::string source;  ///< Who says so.
    bool published = false;
    int strands = 0;  ///< It wants in the trunk.
    int size = -1;    ///< The cheapest size by the study's sums that holds them; -1 when none does.
};

/// The site's own rules, three published policies, and so many strands that all growth to the horizon fits with a
/// chance of 90, 95 and 99 %. In this order.
std::vector<SparePolicy> spare_policies(const Scenario& scenario, const StrandStudy& study);

}  // namespace spadework
