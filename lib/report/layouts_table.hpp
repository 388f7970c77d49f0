#pragma once

#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// Layouts side by side, a column each: cost by category, total, bound and gap, hours, metres, strands, worst cut,
/// worst margin. A layout that cannot be built shows "-" throughout.
TextTable layouts_table(const Scenario& scenario, const Comparison& comparison);

/// Why some layouts cannot be built, and whose search was stopped early: one text each.
std::vector<std::string> layout_remarks(const Comparison& comparison);

/// Strands of all cables that leave the hub, as laid.
int strands_leaving_hub(const Scenario& scenario, const Plan& plan);

}  // namespace spadework::report
