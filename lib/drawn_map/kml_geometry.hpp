#pragma once

#include "drawn_map/map_builder.hpp"

namespace pugi {
class xml_node;
}

namespace spadework::drawn_map {

/// The element is a geometry of KML: Point, LineString, LinearRing, Polygon, MultiGeometry, Track, MultiTrack, Model.
bool is_kml_geometry(std::string_view local_name);

/// Adds what a KML geometry draws, each part of it as a feature of its own with the same facts. A LinearRing on its own
/// is a line that ends where it begins.
void add_kml_geometry(const pugi::xml_node& geometry, const FeatureFacts& facts, MapBuilder& map);

}  // namespace spadework::drawn_map
