#pragma once

// What daisy chains and rings have in common: buildings whose gear passes the light on to the next.

#include <vector>

#include "graph/chain_problem.hpp"
#include "layout/least_costs.hpp"
#include "layout/routed_layout.hpp"
#include "layout/service_figures.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Chains at the least, whether closed to rings or not.
int least_chain_count(const Scenario& scenario);

/// Most buildings of one chain.
int longest_chain(const Scenario& scenario);

/// Hub switches for so many ends of chains at the hub: one for a daisy chain, two for a ring.
LeastCost hub_for_ends(const Scenario& scenario, int ends);

/// The most that so many ends more cost at the hub.
Money dearest_ends(const Scenario& scenario, int ends);

/// Figures of the cable of one hop; nothing when the catalogue has no cable.
std::optional<CableFigures> hop_figures(const Scenario& scenario, const CostScale& scale);

/// Adds the routes of a chain's hops, and its buildings in order. Says where the last hop ends.
PlaceIndex add_chain(const std::vector<graph::ChainPlan::Hop>& hops, const Network& network, const Scenario& scenario,
                     RoutedLayout& routed);

/// Puts the buildings' routes in the order that a RoutedLayout wants.
void sort_by_building(RoutedLayout& routed);

}  // namespace spadework
