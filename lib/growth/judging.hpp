#pragma once

// One plan against what may come.

#include <vector>

#include "growth/two_stage.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "units/bit_rate.hpp"

namespace spadework {

/// The rate that most links of the site have, the slower of equals: of links to buildings that come.
BitRate commonest_rate(const Scenario& scenario);

/// Why a building that may come is not counted; "" where it is.
std::string why_left_out(const Scenario& scenario, const FutureBuilding& future);

/// A building that may come, as it would be once it is there. It must have a place.
Building building_to_come(const FutureBuilding& future, BitRate rate);

struct JudgedPlan {
    GrowthPlan figures;
    Plan plan;  ///< With the trunks of the figures.
};

/// The plan as it is, or with the trunk sizes and spare ducts that make its expected total least.
enum class Trunks { as_they_are, best };
JudgedPlan judged(const Scenario& scenario, const Plan& plan, Trunks trunks);

}  // namespace spadework
