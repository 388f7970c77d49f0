#pragma once

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// Every line of a bill, lines of the same item and unit price added up, with a sum for each category and a total.
std::string cost_table(const Scenario& scenario, const Bill& bill);

}  // namespace spadework::report
