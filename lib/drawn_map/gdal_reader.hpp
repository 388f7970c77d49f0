#pragma once

#include <string>
#include <string_view>

#include "drawn_map/map_builder.hpp"
#include "drawn_map/reading.hpp"

namespace spadework::drawn_map {

/// Reads a GeoPackage, a Shapefile (alone or zipped) or a DXF drawing through GDAL, and turns its coordinates into
/// WGS 84 where it says, or the options do, what they are in. `format` names it in messages. Does nothing in a build
/// without GDAL.
void read_with_gdal(const std::string& format, std::string_view bytes, const ReadingOptions& options, MapBuilder& map);

}  // namespace spadework::drawn_map
