#pragma once

// The parts of violations(). They share nothing with the code that makes, prices and measures plans but the values
// themselves: whatever they need they work out again in the plainest way. All but the first expect a plan in which
// reference_violations() finds nothing.

#include <cstdint>
#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework::verification {

using Sentences = std::vector<std::string>;

/// A segment's way as its number says: the methods of its ground in order, then its existing duct where that has room,
/// then its pole line. `method` is null when there is no such way or the segment is banned.
struct OpenedWay {
    const OpeningMethod* method = nullptr;
    std::string ground;
    int room = -1;  ///< Most cables; -1 means no limit.
    bool dug = true;
};
OpenedWay opened_way(const Scenario& scenario, const Step& step);

/// Everything the plan points at exists.
Sentences reference_violations(const Scenario& scenario, const Plan& plan);

/// Cables walk from place to place, trenches are what the cables use, lengths are those of the walk.
Sentences route_violations(const Scenario& scenario, const Plan& plan);

/// No trench enters an obstacle, and those said to cross open ground keep to it.
Sentences ground_violations(const Scenario& scenario, const Plan& plan);

/// Strands, adapters and spares suffice, and enclosures stand where they may and serve whom they say.
Sentences strand_violations(const Scenario& scenario, const Plan& plan);

/// Every building has its links, over cables that join it to the hub, with optics that carry them; chains hold every
/// building once.
Sentences link_violations(const Scenario& scenario, const Plan& plan);

/// Every ring leaves the hub, passes its buildings one after the other and comes back, with as many links on either
/// side of each as its fullest hop wants, and no cut of a segment takes down a building that the map gives another way.
Sentences ring_violations(const Scenario& scenario, const Plan& plan);

/// Gear in the buildings and at the hub has the ports and power.
Sentences gear_violations(const Scenario& scenario, const Plan& plan);

/// The bill is what the plan costs, and adds up; the total is not below the bound.
Sentences cost_violations(const Scenario& scenario, const LayoutResult& result);

/// Metres, losses and margins of the result are those of its plan.
Sentences measure_violations(const Scenario& scenario, const LayoutResult& result);

template <typename Item, typename Index>
const Item& item(const std::vector<Item>& items, Index index) {
    return items[static_cast<std::size_t>(index)];
}

}  // namespace spadework::verification
