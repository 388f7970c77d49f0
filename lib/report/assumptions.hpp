#pragma once

#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::report {

/// What the figures of a report rest on, one sentence each, with the values in force for this site.
std::vector<std::string> assumptions(const Scenario& scenario);

}  // namespace spadework::report
