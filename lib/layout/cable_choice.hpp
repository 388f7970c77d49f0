#pragma once

// Which cable products carry a strand need, for real over a known route and at the very least for a bound.

#include <optional>
#include <vector>

#include "graph/shared_cost_problem.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// The cheapest products that together hold `strands` over a route: one cable where one is large enough, else the
/// cheapest set, where each cable pays `passage` for its ducts and its pulling. Indices into catalogue.cables,
/// ascending; nothing when the catalogue has no cable.
std::optional<std::vector<int>> cheapest_cables(const Scenario& scenario, int strands, Length route,
                                                Money passage = {});

/// Figures no set of cables that holds the strands can go below; each on its own, so that together, less the rounding,
/// they are a bound on what the cables' lines add up to.
struct LeastCable {
    UnitPrice per_route_metre;  ///< Cable with ordering allowance, a metre of route.
    int pieces = 1;             ///< Cables in parallel.
    Money ends;                 ///< Both ends: length beyond the route, material and work.
    Money of_product;           ///< The same without work.
    Money rounding;             ///< The most by which rounded lines can fall short of the exact figures.
};

/// Nothing when the catalogue has no cable.
std::optional<LeastCable> least_cable(const Scenario& scenario, int strands, int strands_in_use);

/// What a route of at least `route` makes a cable cost beyond the figures of least_cable, whatever product, or set of
/// them, is taken and however much longer it runs: joints it cannot do without, and products that suit short routes
/// giving way to those that suit long ones. Rounded down.
Money least_beyond_figures(const Scenario& scenario, int strands, Length route);

}  // namespace spadework
