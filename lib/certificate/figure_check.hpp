#pragma once

// Whether a relaxed problem's figures are ones that no plan goes below.

#include <string>
#include <vector>

#include "certificate/least_figures.hpp"
#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

/// Figures that are above what the site's prices make, or not there: a sentence each, ten at most.
std::vector<std::string> figure_faults(const Scenario& scenario, const FanOutFigures& figures,
                                       const RoutesEvidence& evidence);

}  // namespace spadework::certificate
