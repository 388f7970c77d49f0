#pragma once

// What prices prove where cables are counted as they are bought: step 6 of certificate.hpp.

#include <optional>

#include "certificate/least_figures.hpp"
#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework::certificate {

/// Direct cost that one set of the evidence's prices, by its number, proves no plan undercuts that fans out from one of
/// its roots, by its number. Nothing where these rules say nothing. The evidence's figures and prices must have been
/// found to be without fault.
std::optional<Money> bought_bound(const Scenario& scenario, const FanOutFigures& figures,
                                  const RoutesEvidence& evidence, std::size_t set, std::size_t root);

}  // namespace spadework::certificate
