#pragma once

// The cheapest two ways of a ring to each building, as the claim of graph/ring_certificate.hpp has them.

#include <optional>

#include "certificate/least_figures.hpp"
#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

/// The sum over buildings of the least that two ways from the hub, which share no segment but those that the map has
/// no way round, cost by the building's joining prices, counted once where both pass, and by what every pass pays.
/// Nothing where a building cannot be reached.
std::optional<Wide> two_ways_sum(const Scenario& scenario, const ChainEvidence& evidence);

}  // namespace spadework::certificate
