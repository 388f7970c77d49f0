#pragma once

#include <string_view>

#include "drawn_map/map_builder.hpp"

namespace spadework::drawn_map {

/// Reads OSM XML (version 0.6): tagged nodes as points; ways as lines, or as areas where osm_area_rule says so;
/// relations of type multipolygon as areas, put together from their ways. Ids are "node/1", "way/2", "relation/3".
/// Where a way uses nodes that the file does not have, its line is cut there; an area with such a gap is left out.
void read_osm_xml(std::string_view text, MapBuilder& map);

}  // namespace spadework::drawn_map
