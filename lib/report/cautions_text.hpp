#pragma once

#include <string>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// The cautions a plan calls for, each with the published text it follows, under a title.
std::string cautions_text(const Scenario& scenario, const Plan& plan);

}  // namespace spadework::report
