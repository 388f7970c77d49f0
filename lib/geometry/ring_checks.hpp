#pragma once

#include <optional>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// Two sides of a ring that meet though they are not neighbours, or neighbours that fold back. Sides count from 0; side
/// i leads from corner i to the next.
struct RingFault {
    std::size_t first = 0;
    std::size_t second = 0;
    Position at;
};

/// The first fault of a ring of points on a plane (the last joined to the first), or nothing.
std::optional<RingFault> fault_of_ring(const std::vector<Position>& ring);

/// Whether a ring lies inside another; it may touch it but not cross it. Neither may have a fault.
bool ring_within(const std::vector<Position>& inner, const std::vector<Position>& outer);

/// Whether two rings have no point inside in common. Neither may have a fault.
bool rings_apart(const std::vector<Position>& a, const std::vector<Position>& b);

}  // namespace spadework
