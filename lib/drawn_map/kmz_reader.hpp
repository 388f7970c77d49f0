#pragma once

#include <string>

#include "drawn_map/map_builder.hpp"
#include "drawn_map/zip_archive.hpp"

namespace spadework::drawn_map {

/// Reads a KMZ file: doc.kml or else the first KML file in it, and the files of the archive that it links to. Places in
/// messages are named "park.kmz/doc.kml".
void read_kmz(const std::string& file, ZipArchive& archive, MapBuilder& map);

}  // namespace spadework::drawn_map
