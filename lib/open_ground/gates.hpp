#pragma once

#include <vector>

#include "open_ground/map_sheet.hpp"

namespace spadework::open_ground {

/// A point in open ground through which ways enter or leave it.
struct Gate {
    PlaceIndex place = 0;
    bool on_the_way = false;  ///< Only a cut along a segment, of which there are many.
    bool terminal = false;    ///< The hub, a building, or the step in front of one.
};

/// Joins the places of the map to open ground. Those in it are gates themselves. Those within reach of it get a step
/// up to the nearest point of its border, if that is clear of obstacles: at the price of a segment that ends there, or
/// of the open ground in front of a building. A building or hub inside an obstacle, its own walls, gets a step to the
/// middle of each wall that faces open ground.
std::vector<Gate> join_places(MapSheet& sheet);

}  // namespace spadework::open_ground
