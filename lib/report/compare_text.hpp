#pragma once

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// The whole comparison for a customer to read on paper or a terminal: layouts side by side, the verdict, then every
/// metre and every cent of the cheapest layout, its findings, assumptions and cautions. At most 100 columns wide, plain
/// text in UTF-8, nothing in it that a terminal would obey.
std::string compare_text(const Scenario& scenario, const Comparison& comparison);

/// One layout in full, as in the second half of compare_text(). The result must be feasible.
std::string plan_text(const Scenario& scenario, const LayoutResult& result);

/// What was decided on the way and why, layout by layout.
std::string reasons_text(const Comparison& comparison);

}  // namespace spadework::report
