#pragma once

#include <string_view>

#include "drawn_map/map_builder.hpp"

namespace spadework::drawn_map {

/// Reads GeoJSON (RFC 7946): a FeatureCollection, a Feature or a bare geometry, or a sequence of such texts, one a line
/// or set apart as RFC 8142 says. Properties become tags; lists and objects among them keep their JSON text. The member
/// "crs" of the older format names a coordinate system. Every geometry that is not as the standard says is an error.
void read_geojson(std::string_view text, MapBuilder& map);

}  // namespace spadework::drawn_map
