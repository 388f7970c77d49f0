#pragma once

#include <compare>
#include <string>

#include "drawn_map/drawn_map.hpp"

namespace spadework::survey {

/// How high a line runs. Lines that cross without a shared vertex meet only where their levels are equal.
struct Level {
    int layer = 0;  ///< Of the tag `layer`, -5 to 5 in use; otherwise 1 on a bridge, -1 in a tunnel, 0 elsewhere.
    bool bridge = false;
    bool tunnel = false;
    bool covered = false;
    friend auto operator<=>(const Level&, const Level&) = default;
};

/// From the tags bridge, tunnel, covered and layer. A layer that is no whole number counts as not given.
Level level_of(const drawn_map::Feature& line);

/// Neither bridge nor tunnel nor on another layer: where a trench can be joined from the side.
bool is_at_ground(const Level& level);

/// "bridge, layer 1", "ground level".
std::string to_text(const Level& level);

}  // namespace spadework::survey
