#pragma once

// What every plan of a layout pays whatever its routes: the part of a lower bound that no solver finds.

#include <optional>
#include <string>
#include <vector>

#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework {

/// A least cost, or why there is no plan at all.
struct LeastCost {
    Money cost;
    std::string impossible;  ///< Empty when it is possible.
};

/// Optics, patch cords and testing of one link of `rate` over at least `least_glass`.
LeastCost least_link_cost(const Scenario& scenario, const Building& building, BitRate rate, Length least_glass);

/// All links, the gear, of a building served from the hub or an enclosure over at least `least_glass`.
LeastCost least_building_cost(const Scenario& scenario, BuildingIndex building, Length least_glass);

/// Hub switches for so many optic ports, the fastest wanted rate among them.
LeastCost least_hub_cost(const Scenario& scenario, int ports, BitRate rate);

/// The fastest rate any building wants.
BitRate fastest_rate(const Scenario& scenario);

/// Links on every hop of a daisy chain: as many as the building that wants most.
int links_per_hop(const Scenario& scenario);

}  // namespace spadework
