#pragma once

// Coils that cables leave in the handholes they pass, as routing problems count them.

#include <vector>

#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// The network with half of a handhole's coil added to the length of every edge that ends there, so that a route pays
/// the whole coil where it passes. A route that begins or ends in a handhole leaves none there and pays a half too
/// much; at the hub and at buildings nothing is added, so that this is so of enclosures only.
Network with_handhole_coils(const Scenario& scenario, Network network);

/// Half of a handhole's coil, rounded down, so that no coil is counted longer than it is.
Length half_coil(const Scenario& scenario);

/// Whether lengths count half a coil of every cable that begins or ends at the place: a handhole, and neither the hub's
/// place nor a building's.
bool leaves_coils_at(const Scenario& scenario, PlaceIndex place);

/// What cables that begin or end in one handhole pay too much at most: half a coil of each, at their prices a metre,
/// each rounded up to a whole minor unit.
Money half_coils(const Scenario& scenario, const std::vector<UnitPrice>& per_route_metre);

}  // namespace spadework
