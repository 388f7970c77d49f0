#pragma once

#include <vector>

#include "routing/distances.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Places where an enclosure may stand and that the network reaches from the hub, ascending.
std::vector<PlaceIndex> enclosure_places(const Scenario& scenario, const ShortestWays& from_hub);

}  // namespace spadework
