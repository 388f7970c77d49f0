#pragma once

#include <string>

#include "scenario/scenario.hpp"
#include "strands/strand_study.hpp"

namespace spadework::report {

/// The strands one trunk needs, building by building, the growth that was named, and every cable size against them.
std::string strands_text(const Scenario& scenario, const StrandStudy& study);

/// The same as one JSON object. Prices are a metre whatever the site's unit.
std::string strands_json(const Scenario& scenario, const StrandStudy& study);

}  // namespace spadework::report
