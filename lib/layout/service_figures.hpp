#pragma once

// Solver figures of the cables that serve buildings and of the trunks that feed enclosures: least prices a metre for
// the routing, and the least constant cost beside it. Each figure on its own is one no plan goes below.

#include <optional>
#include <string>
#include <vector>

#include "graph/two_level_problem.hpp"
#include "layout/least_costs.hpp"
#include "routing/distances.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

/// What one cable pays along its route, in solver units, and at its ends, in money.
struct CableFigures {
    graph::Cost weight = 0;        ///< A millimetre of route.
    graph::Cost multiplicity = 1;  ///< Cables in parallel.
    Money ends;
    Money rounding;  ///< To be taken off once a cable route; see LeastCable.
    UnitPrice per_route_metre;
    Money of_product;  ///< Of `ends`, what is paid for the cable itself.
};

/// Figures of every building's own cable, with the least cost of all that hangs on it.
struct ServiceFigures {
    std::vector<CableFigures> cables;  ///< For each building.
    Money constant;                    ///< Cable ends, links, gear, hub, mobilisation.
    std::string impossible;            ///< Why no plan exists; empty when that is not known.
};

/// Figures for a layout in which every building's links reach the hub without anything powered between.
ServiceFigures service_figures(const Scenario& scenario, const CostScale& scale, const ShortestWays& from_hub);

/// Figures of a cable for a need; nothing when the catalogue has no cable.
std::optional<CableFigures> cable_figures(const Scenario& scenario, const CostScale& scale, const StrandNeed& need);

/// What a building's own cable costs at least beyond its figures when its route is at least so long.
Money beyond_service_figures(const Scenario& scenario, BuildingIndex building, Length route);

/// The same for a trunk that holds so many strands in use.
Money beyond_trunk_figures(const Scenario& scenario, int strands_in_use, Length route);

/// What the strands of one building cost at the two ends of a trunk, rounded down.
Money least_trunk_end_work(const Scenario& scenario, int strands_in_use);

/// The most that rounding can take off the trunks of any plan: of every trunk the rules allow, each holding all
/// strands.
Money trunk_rounding(const Scenario& scenario, int strands_in_use);

/// Feeder sizes for up to `most_in_use` strands in use: cable and enclosure figures at each point where either steps
/// up, before trunk_rounding(). Units are strands in use.
std::vector<graph::FeederSize> trunk_sizes(const Scenario& scenario, const CostScale& scale, int most_in_use);

/// For each of the sizes what a trunk of that size costs beyond its figures when its route is at least so long.
std::vector<graph::Cost> beyond_trunk_sizes(const Scenario& scenario, const CostScale& scale,
                                            const std::vector<graph::FeederSize>& sizes, Length route);

}  // namespace spadework
