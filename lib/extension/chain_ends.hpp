#pragma once

// Additions that hang on the end of a chain: their order, and optic ports for them.

#include <functional>
#include <string>
#include <vector>

#include "extension/assembling.hpp"
#include "rates/gear_rates.hpp"

namespace spadework {

/// The links that an addition gets.
using LinksOf = std::function<std::vector<LinkDemand>(const RoutedAddition&)>;

/// Optic ports that a building's gear needs for the links of a plan that end or begin there, and for those of additions
/// that hang on it and are not in the plan yet.
GearNeed gear_need(BuildingIndex building, const RoutedExtension& routed, const Plan& plan, const LinksOf& links_of);

std::string why_no_gear(const Building& building, const GearNeed& need);

/// Puts additions into the chains whose last building they hang on, once their links are in the plan. Gear there that
/// lacks optic ports is replaced, and its links noted as interrupted, where the task allows that. "" or why it cannot
/// be.
std::string hang_on_chains_of(const ExtensionTask& task, const RoutedExtension& routed, ExtendedPlan& extended);

}  // namespace spadework
