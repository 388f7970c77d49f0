#pragma once

// Checks evidence of trunks, set by set of enclosure places.

#include <optional>
#include <string>
#include <vector>

#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework::certificate {

/// Figures above what the site's prices make, and figures that the proof's form does not allow: a sentence part each.
/// `mixed`: buildings may be on home runs, and no enclosure need be open.
std::vector<std::string> trunk_figure_faults(const Scenario& scenario, const TrunkEvidence& evidence, bool mixed);

/// Why prices, asks or ranges may not be as they are; "" when they may.
std::string trunk_price_fault(const Scenario& scenario, const TrunkEvidence& evidence);

/// Direct cost that no plan undercuts; nothing where no plan is possible, or where there are more sets of places than
/// can be looked at one by one. Both checks above must have found nothing.
std::optional<Money> trunk_direct_bound(const Scenario& scenario, const TrunkEvidence& evidence, bool mixed);

}  // namespace spadework::certificate
