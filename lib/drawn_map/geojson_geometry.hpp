#pragma once

#include "drawn_map/json_tree.hpp"
#include "drawn_map/map_builder.hpp"

namespace spadework::drawn_map {

/// "Point", "MultiPolygon", "GeometryCollection" and the like.
bool is_geometry_type(std::string_view type);

/// Adds what a GeoJSON geometry draws, each part of it as a feature of its own with the same facts.
void add_geometry(const JsonTree& tree, JsonNode geometry, const FeatureFacts& facts, MapBuilder& map);

}  // namespace spadework::drawn_map
