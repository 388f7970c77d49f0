#pragma once

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// Each enclosure: where, which product, adapters, strands, whom it serves. "" when the plan has none.
std::string enclosure_table(const Scenario& scenario, const Plan& plan);

/// Each cable: strands laid and in use, ends, lengths.
std::string cable_table(const Scenario& scenario, const Plan& plan);

/// Each link: optic, length of fibre, and loss against its limit in the worse direction.
std::string link_table(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework::report
