#pragma once

#include "comparison/comparison.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// Segments in use by ground and method: length and opening cost, with totals.
TextTable trench_table(const Scenario& scenario, const Plan& plan);

/// Length of the segments that carry two cables or more, each segment once.
Length shared_length(const Scenario& scenario, const Plan& plan);

/// Cables by strand count: how many, on the map, with slack, as ordered, with totals.
TextTable cable_size_table(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework::report
