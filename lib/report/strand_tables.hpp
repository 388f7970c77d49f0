#pragma once

// The strands of one trunk that serves every building, as tables for every kind of report.

#include "report/text_table.hpp"
#include "scenario/scenario.hpp"
#include "strands/strand_study.hpp"

namespace spadework::report {

/// Links and strands of each building, and what spares and headroom make of them.
TextTable strand_need_table(const Scenario& scenario, const StrandStudy& study);

/// The sums of the same alone.
TextTable strand_sum_table(const StrandStudy& study);

/// Each building that may come, and links that come unnamed.
TextTable growth_table(const Scenario& scenario);

/// How likely growth to the horizon needs so many strands.
TextTable growth_chance_table(const StrandStudy& study);

/// Each cable size on offer against the need, the recommended one marked.
TextTable cable_offer_table(const Scenario& scenario, const StrandStudy& study);

}  // namespace spadework::report
