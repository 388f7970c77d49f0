#pragma once

// What the trunk layouts share: figures, allowed places, and why there may be no plan.

#include <string>
#include <vector>

#include "layout/routed_layout.hpp"
#include "layout/service_figures.hpp"
#include "routing/distances.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

struct TrunkProblem {
    Network network;
    Network with_coils;  ///< The same with coils in the handholes that cables pass.
    ShortestWays from_hub;
    ServiceFigures service;
    std::vector<graph::FeederSize> sizes;  ///< Of trunks, units in strands in use.
    std::vector<PlaceIndex> places;        ///< Where enclosures may stand.
    int strands_in_use = 0;                ///< Of all buildings together.
    Money trunk_end_work;    ///< Least work on all buildings' strands at the ends of trunks, less the trunks' rounding.
    std::string impossible;  ///< Why no plan exists; empty when that is not known.
};

TrunkProblem trunk_problem(const Scenario& scenario);

/// Everything by the shortest way from the best-placed of the given places: the plan with the shortest links for it.
RoutedLayout trunk_by_shortest_ways(const Scenario& scenario, const TrunkProblem& problem, LayoutKind kind,
                                    const std::vector<PlaceIndex>& enclosures);

}  // namespace spadework
