#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spadework::drawn_map {

enum class MapKind {
    geojson,
    kml,
    gpx,
    osm_xml,
    table,    ///< CSV.
    archive,  ///< A zip file; what it is depends on its entries.
    by_gdal,  ///< A format that GDAL reads.
    refused,  ///< Known, and of no use as it is.
};

/// What kind of map a file is.
struct MapFormat {
    MapKind kind = MapKind::refused;
    std::string name;    ///< "GeoJSON", "a DXF drawing".
    std::string wanted;  ///< Of a refused file: what would be right.
};

/// Tells formats that are not text by their first bytes, and parts of a Shapefile by the ending of the file's name;
/// kind table where the bytes may be text.
MapFormat format_of_bytes(const std::string& file, std::string_view bytes);

/// Tells the format of a text by how it begins, then by the ending of the file's name.
MapFormat format_of_text(const std::string& file, std::string_view text);

/// Tells what a zip file holds by the names of its entries.
MapFormat format_of_archive(const std::vector<std::string>& entries);

/// Name of the first element of an XML text, without a namespace prefix; "" where there is none.
std::string_view root_element(std::string_view xml);

}  // namespace spadework::drawn_map
