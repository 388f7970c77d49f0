#pragma once

// What one set of prices proves of plans with exactly given enclosure places open.
//
// Take such a plan. Its trenches join hub, open places and buildings. Each building pays for its cable, and for its
// units what its place asks; where all rank ways alike, serving each by the cheapest open place within these trenches
// (or, where it may be on a home run, from the hub) makes up trees around the places, which some of the trenches join
// to the hub without a cycle. In that tree, seen as running away from the hub, a building is charged prices from the
// hub to a fork, prices and its cable from the fork to its place, and prices and its cable from the fork to itself; no
// arc's prices come to more than its trench. So trenches, cables and asks come to no less than the sum over buildings
// of their cheapest such charge, whatever the fork; and the trunks, each over its cheapest way, less what their places
// ask, come to no less than the cheapest way of sharing out the units.
//
// As buildings pay for a trench in one direction only, and for none outside that tree, they leave of each trench at
// least what it costs less the larger of its arcs' sums of prices. On its way each of the trunks may be charged an
// equal part of that, as many parts as places are open: together buildings and trunks are still charged no more than
// the trenches cost. What a way is charged so is divided as a whole, and rounded down.

#include <cstdint>
#include <optional>
#include <vector>

#include "certificate/edge_distances.hpp"
#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

/// Costs as they are, not to be met: nothing that adds up to more than this is possible.
constexpr Wide never = Wide{1} << 120U;

/// Least cost of a trunk, in parts: [site][steps of units it serves].
struct TrunkCosts {
    std::int64_t units_a_step = 1;  ///< What divides every building's units.
    std::int64_t steps = 0;         ///< Of all units.
    std::vector<std::vector<Wide>> cost;
};
/// Over the shortest ways, charged nothing for trenches.
TrunkCosts trunk_costs(const Scenario& scenario, const TrunkEvidence& evidence);

/// Of one of so many trunks, charged for trenches what these prices leave.
TrunkCosts trunk_costs(const Scenario& scenario, const TrunkEvidence& evidence, const graph::EdgePriceSet& prices,
                       std::size_t trunks);

/// What buildings are charged under one set of prices, in parts: [site][building], and on home runs.
struct ServiceCosts {
    std::vector<std::vector<Wide>> from_site;
    std::vector<Wide> direct;  ///< `never` where a building may not be on a home run.
};
ServiceCosts service_costs(const Scenario& scenario, const TrunkEvidence& evidence, const graph::EdgePriceSet& prices);

/// What a multiple of the common charge may be asked where a unit is asked so much, so that no building is asked more
/// than its units; nothing where no such number is.
std::optional<Wide> share_of_ask(const Scenario& scenario, const TrunkEvidence& evidence, graph::Cost ask);

/// Each building's charge as a multiple of the common one.
std::vector<Wide> multiples_of(const TrunkEvidence& evidence);

/// Least and most steps of units that one site serves.
struct StepRange {
    std::int64_t least = 0;
    std::int64_t most = 0;
};

/// Whole steps of units within a range that an entry names.
StepRange steps_of(const graph::TwoLevelCertificate::Units& units, const TrunkCosts& trunks);

/// The least that a site's trunk costs, less what the site asks, whatever it serves; `never` where it can have none.
Wide least_trunk(const TrunkCosts& trunks, std::size_t site, graph::Cost ask);

/// Lowers what buildings are charged at the least to what a site charges and asks of them.
void lower(std::vector<Wide>& cheapest, const std::vector<Wide>& from_site, Wide share,
           const std::vector<Wide>& multiples);

/// The cheapest sharing out of the steps among sites, less what they ask; `never` where none is possible. Without
/// `all`, some may be left to home runs.
Wide cheapest_split(const TrunkCosts& trunks, const std::vector<std::int32_t>& sites,
                    const std::vector<graph::Cost>& asks, const std::vector<StepRange>& ranges, bool all);

}  // namespace spadework::certificate
