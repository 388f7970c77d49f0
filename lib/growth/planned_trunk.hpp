#pragma once

// The trunk of a plan as the strand study looks at it.

#include <optional>

#include "comparison/comparison.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "strands/trunk_run.hpp"

namespace spadework {

/// The run of the trunk to one of a plan's enclosures (an index); nothing where more or less than one cable leads
/// there.
std::optional<TrunkRun> run_to_enclosure(const Scenario& scenario, const Plan& plan, std::size_t enclosure);

/// The run of a plan's trunk where one enclosure serves every building; nothing for other plans.
std::optional<TrunkRun> run_of_trunk(const Scenario& scenario, const Plan& plan);

/// The run in the first layout of a comparison that has such a trunk, a metre of trunk where none has.
TrunkRun trunk_to_study(const Scenario& scenario, const Comparison& comparison);

/// The run in a plan with one enclosure that is found quickly, without a proof that there is no cheaper one; a metre of
/// trunk where there is no such plan.
TrunkRun trunk_to_study(const Scenario& scenario);

}  // namespace spadework
