#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::drawn_map {

/// Ids of the nodes of a way, in order.
using NodeIds = std::vector<std::int64_t>;

/// Ways joined end to end.
struct JoinedWays {
    std::vector<NodeIds> rings;  ///< Closed: the last node is the first.
    std::vector<NodeIds> open;   ///< Left over, with no way to go on with.
};

/// Joins ways at the nodes they share as ends, into rings. Each goes on with the first unused way of the list that
/// begins or ends where it stands.
JoinedWays join_ways(const std::vector<NodeIds>& ways);

/// An outer ring and the holes in it.
using RingWithHoles = std::vector<std::vector<Position>>;

/// Gives each hole to the smallest outer ring around it. Holes that no outer ring holds are counted in `second`.
std::pair<std::vector<RingWithHoles>, int> assign_holes(std::vector<std::vector<Position>> outer,
                                                        std::vector<std::vector<Position>> inner);

}  // namespace spadework::drawn_map
