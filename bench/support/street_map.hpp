#pragma once

// Invented street maps of an asked size: perturbed blocks with streets between, buildings behind spurs.

#include <cstdint>
#include <string>
#include <vector>

#include "support/dice.hpp"

namespace spadework::bench {

/// How large a site is.
struct SiteSize {
    int buildings = 40;
    int segments = 1000;  ///< At least least_segments(buildings).
};

/// So many segments a map needs for its streets and the ways to its buildings.
int least_segments(int buildings);

enum class MapPlaceKind { junction, handhole, building, hub };

struct MapPlace {
    MapPlaceKind kind = MapPlaceKind::junction;
    std::int64_t x_dm = 0;    ///< Decimetres east.
    std::int64_t y_dm = 0;    ///< Decimetres north.
    int enclosure_extra = 0;  ///< Money, on a handhole where it is dear to stand.
};

struct MapSegment {
    int from = 0;  ///< Index of a place.
    int to = 0;
    const char* ground = "";
    int crossing_charge = 0;  ///< Money, once, where a main road is crossed.
};

struct StreetMap {
    std::vector<MapPlace> places;
    std::vector<MapSegment> segments;
    std::vector<int> building_places;
    int hub_place = 0;
};

/// A connected map with exactly that many buildings and segments. Rows and columns of blocks: cables run along the four
/// sides of each and cross the streets at its corners; every corner is pushed a little aside and some sides and
/// crossings are missing. Grounds come in patches of several blocks. A building stands inside a block and is reached
/// from one side or two; the hub stands apart at the end of an access road.
StreetMap street_map(const SiteSize& size, Dice& dice);

}  // namespace spadework::bench
