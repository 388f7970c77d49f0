#pragma once

// Checks evidence of daisy chains by the claim of graph/chain_certificate.hpp, and of rings by that of
// graph/ring_certificate.hpp.

#include <optional>
#include <string>
#include <vector>

#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework::certificate {

/// Whether chains end at their last building or are closed to rings.
enum class Chains { open, closed };

/// Whether the site's figures leave any such chains.
bool chains_are_possible(const Scenario& scenario, Chains chains);

/// Figures above what the site's prices make, and figures out of their range: a sentence part each.
std::vector<std::string> chain_figure_faults(const Scenario& scenario, const ChainEvidence& evidence, Chains chains);

/// Why the prices may not be as they are; "" when they may.
std::string chain_price_fault(const Scenario& scenario, const ChainEvidence& evidence, Chains chains);

/// Direct cost that no plan undercuts; nothing where some building cannot be reached, so that there is no plan. Both
/// checks above must have found nothing.
std::optional<Money> chain_direct_bound(const Scenario& scenario, const ChainEvidence& evidence, Chains chains);

}  // namespace spadework::certificate
