#pragma once

// What plans with trunks pay at least.

#include <optional>
#include <vector>

#include "certificate/least_figures.hpp"

namespace spadework::certificate {

/// A trunk that holds so many strands in use, its ends and its enclosure; nothing where none can be had.
struct TrunkFigures {
    LeastCable cable;
    Money fixed;  ///< Ends and enclosure, without rounding and without work on strands.
};
std::optional<TrunkFigures> trunk_figures(const Scenario& scenario, int in_use);

/// Work on a building's strands at both ends of a trunk.
Money trunk_end_work(const Scenario& scenario, const Building& building);

/// Strands in use of all buildings.
int all_strands(const Scenario& scenario);

/// Figures of plans in which buildings hang from the hub or from enclosures.
struct ServedFigures {
    std::vector<LeastCable> cables;                     ///< A building's own each, in order.
    Money cost;                                         ///< What all plans pay but for routes and trunks.
    std::vector<std::optional<std::int64_t>> from_hub;  ///< Millimetres to each place.
};

/// Nothing where no plan is possible.
std::optional<ServedFigures> served_figures(const Scenario& scenario);

}  // namespace spadework::certificate
