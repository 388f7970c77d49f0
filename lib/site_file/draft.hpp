#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "scenario/scenario.hpp"
#include "site_file/reading.hpp"

namespace spadework::site_file {

/// A scenario being read, in the order of the file, with what is needed until it is complete.
struct Draft {
    Scenario scenario;
    NameIndex places{"place"};
    NameIndex segments{"segment"};
    NameIndex grounds{"ground"};
    NameIndex buildings{"building"};
    NameIndex areas{"area"};
    std::vector<SourcePosition> place_positions;       ///< One a place.
    std::vector<SourcePosition> building_positions;    ///< One a building.
    std::vector<std::optional<bool>> enclosure_given;  ///< One a place: what the place itself says.
    std::vector<int> enclosure_kinds;                  ///< Numbers of PlaceKind where the rules allow enclosures.
    bool has_map = false;                              ///< Places were read, so that names of places can be looked up.
    bool has_hub = false;
    std::set<std::string> skipped_places;  ///< Left out as cut off, on request.
    /// Buildings that the map brings along, at places that no other building names.
    std::vector<Building> from_map;
    SourcePosition open_ground_position;  ///< Of the rules for open ground, or where they could be.
    bool map_is_sound = false;            ///< Map, hub and buildings were read without an error.
};

}  // namespace spadework::site_file
