#pragma once

#include <vector>

#include "scenario/scenario.hpp"
#include "site_file/reading.hpp"

namespace spadework::site_file {

/// One part of a geometry: points of a line, outer rings of a polygon, or a single point.
struct GeometryPart {
    enum class Kind { point, line, area };
    Kind kind = Kind::point;
    std::vector<std::vector<Position>> rings;  ///< One list for a point or line; the outer rings of an area.
    NodeId node = no_node;
    std::vector<std::vector<std::vector<Position>>> holes;  ///< Of an area: those of each outer ring.
};

/// Positions that cannot be longitude and latitude are counted here, and reported once for the whole file.
struct OutOfRange {
    std::size_t count = 0;
    SourcePosition first;
    double x = 0;
    double y = 0;
};

/// The parts of a geometry. A MultiLineString gives several lines, a MultiPoint several points, a MultiPolygon one area
/// with several outer rings, a GeometryCollection all of its parts. Repeated points in a row are joined.
std::vector<GeometryPart> read_geometry(const Document& document, NodeId geometry, OutOfRange& out_of_range,
                                        Reading& reading);

/// Whether the text is the type of a geometry of RFC 7946.
bool is_geometry_type(std::string_view type);

}  // namespace spadework::site_file
