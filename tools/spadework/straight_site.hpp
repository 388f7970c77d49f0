#pragma once

#include "scenario/scenario.hpp"
#include "study/study.hpp"

namespace spadework {

/// The site with straight lines over its open ground; what these took is taken off the time in the options, which then
/// know the plans made on the way. A site without open ground comes back as it is, and the options too.
Scenario straight_site(const Scenario& scenario, StudyOptions& options);

}  // namespace spadework
