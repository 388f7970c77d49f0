#pragma once

#include <string_view>

#include "drawn_map/map_builder.hpp"

namespace spadework::drawn_map {

/// Reads GPX 1.0 and 1.1: each piece of a track and each route as a line, each waypoint as a point. What is written
/// beside them (cmt, desc, type, sym, src, number, extensions) becomes tags. Times, altitudes and other readings of
/// single track points are counted as left out.
void read_gpx(std::string_view text, MapBuilder& map);

}  // namespace spadework::drawn_map
