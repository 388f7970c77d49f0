#pragma once

#include "comparison/comparison.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// Every line of a bill, lines of the same item and unit price added up, with a sum for each category and a total.
TextTable cost_table(const Scenario& scenario, const Bill& bill);

}  // namespace spadework::report
