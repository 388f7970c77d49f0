#pragma once

// The way in for maps: bytes of a file, whatever its format, to what is drawn in it.

#include <optional>
#include <string>
#include <string_view>

#include "diagnostics/diagnostic.hpp"
#include "drawn_map/drawn_map.hpp"

namespace spadework::drawn_map {

/// Which columns of a CSV table mean what. A name left empty is found by itself, in several languages: "lat",
/// "latitude", "Breite"; "lon", "lng", "Länge"; "x", "Easting"; "name", "building"; "id", "Nr". Letters' case and
/// spaces around a name do not matter.
struct TableColumns {
    std::string x;  ///< Longitude, or metres east.
    std::string y;  ///< Latitude, or metres north.
    std::string name;
    std::string id;
};

struct ReadingOptions {
    /// plane_metres takes the file for a local plan in metres, x east and y north. wgs84_degrees takes it for longitude
    /// and latitude, and refuses coordinates that cannot be.
    CoordinateSystem coordinates = CoordinateSystem::wgs84_degrees;
    TableColumns columns;
    /// Coordinate system of files that do not say theirs, "EPSG:32618"; empty where nothing is known. Positions are
    /// then turned into WGS 84, which needs a build with GDAL.
    std::string reference_system;
};

/// Reads a map as GeoJSON, KML, KMZ, GPX, OSM XML or CSV, and in a build with GDAL as GeoPackage, Shapefile or DXF;
/// which it is is told by its first bytes, then by the ending of its name. Files of up to 500 MB. Reports every problem
/// with its line and column, and returns nothing where one of them is an error. Names, ids and tags come back as one
/// line of valid UTF-8 without control characters or white space at their ends.
std::optional<DrawnMap> read_drawn_map(const std::string& name, std::string_view bytes, const ReadingOptions& options,
                                       Diagnostics& diagnostics);

}  // namespace spadework::drawn_map
