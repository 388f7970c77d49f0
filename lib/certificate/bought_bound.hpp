#pragma once

// What prices prove where cables are counted as they are bought: step 6 of certificate.hpp.

#include <optional>

#include "certificate/least_figures.hpp"
#include "certificate/priced_plans.hpp"
#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework::certificate {

/// Direct cost that prices prove none of their plans undercuts that fans out from one of the evidence's roots, by its
/// number. Nothing where these rules say nothing. The evidence's figures and prices must have been found to be without
/// fault.
std::optional<Money> bought_bound(const Scenario& scenario, const FanOutFigures& figures,
                                  const RoutesEvidence& evidence, const PricedPlans& plans, std::size_t root);

/// The same of all plans by the evidence's splits: the least over their parts, by prices alone or by these rules. Parts
/// that prices alone prove as dear as is wanted are not looked at further.
std::optional<Money> bought_bound_by_splits(const Scenario& scenario, const FanOutFigures& figures,
                                            const RoutesEvidence& evidence, std::size_t root, Money wanted);

}  // namespace spadework::certificate
