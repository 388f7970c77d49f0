#pragma once

#include <vector>

#include "drawn_map/drawn_map.hpp"

namespace spadework::drawn_map {

/// Whether a closed way of OpenStreetMap with these tags draws an area rather than a line that comes back to where it
/// began. "area" = yes or no decides; else a way or rail is a line, and a building, a use of land and the like an area.
/// Source: the OpenStreetMap wiki's page on areas, as generally agreed.
bool closed_way_is_area(const std::vector<Tag>& tags);

}  // namespace spadework::drawn_map
