#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawn_map/drawn_map.hpp"

namespace spadework::drawn_map {

/// "EPSG:32618" for every way of writing that code (urn:ogc:def:crs:EPSG::32618, an address of opengis.net); any other
/// name as it is.
std::string short_system_name(std::string_view name);

/// Longitude and latitude on WGS 84, by any of its names.
bool is_wgs84(std::string_view name);

/// The command that turns a map file into one on WGS 84 beside it. `system` is what it is in; empty where the file says
/// so itself. Files with several layers become KML, the others GeoJSON.
std::string conversion_command(const std::string& file, const std::string& system, bool layers);

/// What would be right in place of a file or system that needs GDAL: this build's lack of it, and conversion_command().
std::string conversion_advice(const std::string& file, const std::string& system, bool layers);

/// Turns the positions of all features from that system into longitude and latitude on WGS 84. Returns why it cannot;
/// empty where it was done. Needs a build with GDAL.
std::string turn_into_wgs84(std::vector<Feature>& features, const std::string& system);

/// This build was made with GDAL.
bool has_gdal();

}  // namespace spadework::drawn_map
