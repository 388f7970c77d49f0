#pragma once

#include "comparison/comparison.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// Each enclosure: where, which product, adapters, strands, whom it serves.
TextTable enclosure_table(const Scenario& scenario, const Plan& plan);

/// Each cable: strands laid and in use, ends, lengths.
TextTable cable_table(const Scenario& scenario, const Plan& plan);

/// Each link: optic, length of fibre, and loss against its limit in the worse direction.
TextTable link_table(const Scenario& scenario, const LayoutResult& result);

/// Each finding: how grave, where, what, and what was measured against which limit.
TextTable findings_table(const LayoutResult& result);

}  // namespace spadework::report
