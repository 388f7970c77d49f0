#pragma once

#include <vector>

#include "open_ground/gates.hpp"
#include "open_ground/lattice.hpp"

namespace spadework::open_ground {

/// Adds straight lines over open ground between gates that see each other, past the corners of obstacles and around
/// the inner corners of borders, so that common straight crossings and ways around obstacles need no lattice; and joins
/// gates and corners to the lattice. From each gate and corner, the nearest of each kind in sight; between buildings
/// and hub, all in sight where they are few.
void add_sight_lines(MapSheet& sheet, const std::vector<Gate>& gates, Lattice& lattice);

}  // namespace spadework::open_ground
