#pragma once

// What prices prove, by the rules of certificate.hpp: whether they may be as they are, and shortest distances.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "certificate/least_figures.hpp"
#include "certificate/priced_plans.hpp"
#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

/// Why prices and splits may not be as they are, in one sentence; "" when they may.
std::string price_fault(const Scenario& scenario, const RoutesEvidence& evidence);

/// Direct cost that no plan with the root undercuts, for each of the evidence's roots; nothing where some demand cannot
/// be reached from it, so that there is no plan. `price_fault` must have found nothing.
std::vector<std::optional<Money>> direct_bounds(const Scenario& scenario, const RoutesEvidence& evidence);

/// The same of some plans, by their prices alone.
std::vector<std::optional<Money>> direct_bounds(const Scenario& scenario, const RoutesEvidence& evidence,
                                                const PricedPlans& plans);

}  // namespace spadework::certificate
