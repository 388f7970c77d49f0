#pragma once

// Changes to a plan that is there already: its routes, and the same with one building served otherwise or not at all.
// All else stays where it is, so that such plans cost little to find; they prove nothing. A network with ways withheld
// keeps the new cable off them. All but routes_of() leave rings alone.

#include <cstddef>
#include <optional>
#include <vector>

#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// The routes of a plan. Where a full duct parts cables that run together, the first one's route counts.
RoutedLayout routes_of(const Plan& plan);

/// The site without a building; those behind it move up by one.
Scenario without_building(const Scenario& scenario, BuildingIndex building);

/// The site with a segment banned.
Scenario without_segment(const Scenario& scenario, SegmentIndex segment);

/// The routes without a building, numbered as without_building() numbers them. Enclosures that serve nobody go; in a
/// chain the neighbours are joined by the cheapest hop. Nothing where there is none, or when no building is left. The
/// scenario still has the building.
std::optional<RoutedLayout> routes_without(const Scenario& scenario, const Network& network, const RoutedLayout& routed,
                                           BuildingIndex building);

/// One building's cable laid anew by the cheapest way from the hub (`from` -1) or from an enclosure. Enclosures that
/// serve nobody go. Nothing where there is no way. Not for chains.
std::optional<RoutedLayout> routes_served_from(const Scenario& scenario, const Network& network,
                                               const RoutedLayout& routed, BuildingIndex building, int from);

/// The hop to one building laid anew, its place in the chain kept. Nothing where there is no way.
std::optional<RoutedLayout> routes_with_other_hop(const Scenario& scenario, const Network& network,
                                                  const RoutedLayout& routed, BuildingIndex building);

/// One building moved to another place in the chains, or to a chain of its own, the order of the others kept: at most
/// so many moves, those that look cheapest by their routes first.
std::vector<RoutedLayout> routes_elsewhere_in_chain(const Scenario& scenario, const Network& network,
                                                    const RoutedLayout& routed, BuildingIndex building,
                                                    std::size_t most);

}  // namespace spadework
