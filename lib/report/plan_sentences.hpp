#pragma once

// What is said of a site or of one feasible layout in a sentence, for every kind of report. Names of any origin are in
// them as they are: pass them through shown().

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// How many buildings and segments the site has, and what money and lengths are in.
std::string site_sentence(const Scenario& scenario);

/// Dug, reused, together, and how much of it carries several cables.
std::string metres_sentence(const Scenario& scenario, const LayoutResult& result);

/// What the worst single cut takes down.
std::string cut_sentence(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework::report
