#pragma once

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// A usual caution of the trade that a plan calls for. Not legal advice: local codes and licensed practice decide.
struct Caution {
    std::string id;      ///< "locate-services", "trench-protection", …
    std::string text;    ///< One or two sentences.
    std::string source;  ///< What published text it follows.
};

/// The cautions that the plan calls for, in the order in which the work meets them. Never empty.
std::vector<Caution> cautions(const Scenario& scenario, const Plan& plan);

}  // namespace spadework
