#pragma once

#include <string>

#include "scenario/scenario.hpp"
#include "strands/growth_rates.hpp"
#include "strands/strand_study.hpp"

namespace spadework::report {

/// The strands one trunk needs, building by building, the growth expected, every cable size against them by what it
/// costs now and later, and how far the recommendation depends on growth.
std::string strands_text(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates);

/// The same as one JSON object. Prices are a metre whatever the site's unit; amounts are those of the whole trunk, or
/// of a metre where "planned" is false.
std::string strands_json(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates);

/// "Growth expected in the next 10 years".
std::string growth_heading(const Scenario& scenario);

}  // namespace spadework::report
