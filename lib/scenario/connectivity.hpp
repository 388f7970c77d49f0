#pragma once

#include <optional>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// Parts of the map that usable segments (those without a ban) hold together. Parts count from 0 in the order of their
/// first place.
struct MapParts {
    std::vector<int> part_of_place;
    int count = 0;
};
MapParts map_parts(const Scenario& scenario);

/// A building that no usable segments join to the hub.
struct CutOffBuilding {
    BuildingIndex building = 0;
    int part = 0;            ///< Its part of the map.
    int places_in_part = 1;  ///< How many places that part has.
    /// Straight distance from its part to the hub's, between these two places. On degrees good to about 0.1 % within
    /// 10 km: meant for a message, not for ordering cable.
    double metres_from_rest = 0;
    PlaceIndex near_end = 0;                     ///< In the building's part.
    PlaceIndex far_end = 0;                      ///< In the hub's part.
    std::optional<SegmentIndex> banned_between;  ///< A banned segment that would join the two parts.
};

/// Buildings that are cut off, in their order. Ties in distance go to the lower place numbers.
std::vector<CutOffBuilding> cut_off_buildings(const Scenario& scenario);

}  // namespace spadework
