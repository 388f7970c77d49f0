#pragma once

// The maps sorted by what their features mean: ways to dig along, buildings, entrances, areas.

#include <map>
#include <string>
#include <vector>

#include "drawn_map/drawn_map.hpp"
#include "survey/level.hpp"
#include "survey/tag_table.hpp"

namespace spadework::survey {

/// A line to dig along, or one that is barred.
struct Way {
    std::string id;
    std::string name;
    std::vector<Position> points;  ///< Degrees.
    Level level;
    int ground_choice = 0;  ///< Index into ground_choices of the contents.
    std::string ban;        ///< Empty where it may be used.
    std::vector<FixedCharge> charges;
};

/// A building: an outline (outer ring first), or one point.
struct DrawnBuilding {
    std::string id;                          ///< Its name where it has one, its address, or what the file calls it.
    std::string name;                        ///< For people; may be the id.
    std::string file_id;                     ///< As the file names it; may be empty.
    std::vector<std::string> further_names;  ///< Of points drawn inside its outline.
    std::vector<std::vector<Position>> rings;
    bool from_point = false;
};

/// An area of open ground, an obstacle or an overlay.
struct DrawnArea {
    std::string id;
    std::string name;
    AreaUse use = AreaUse::obstacle;
    std::string ground;  ///< "" where it has none.
    double extra_per_metre = 0;
    std::vector<FixedCharge> charges;
    std::vector<std::vector<Position>> rings;
};

/// Everything of use in the maps, in an order that does not depend on that of the files.
struct MapContents {
    std::vector<Way> ways;
    std::vector<GroundChoice> ground_choices;
    std::vector<DrawnBuilding> buildings;
    std::vector<Position> entrances;
    std::vector<DrawnArea> areas;
    int lines_left_out = 0;
    int areas_left_out = 0;
    int points_left_out = 0;
    int repeated_features = 0;    ///< The same thing drawn twice.
    int points_in_buildings = 0;  ///< Points that are buildings, inside the outline of one.
};

/// Sorts the features of all maps by the table. Coordinates must be degrees.
MapContents contents_of(const std::vector<drawn_map::DrawnMap>& maps, const TagTable& table,
                        const std::string& default_ground);

}  // namespace spadework::survey
