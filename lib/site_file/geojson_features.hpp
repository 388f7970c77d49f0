#pragma once

#include <optional>
#include <string>
#include <vector>

#include "site_file/geojson_options.hpp"

namespace spadework::site_file {

/// A line of a GeoJSON file: a way along which cables may run.
struct LineFeature {
    std::string id;
    std::string name;
    std::vector<Position> points;  ///< At least two, none like the one before it.
    std::optional<Length> length;  ///< Where it is better known than along the points.
    int ground = 0;
    std::optional<int> duct_room;
    std::optional<DuctBore> duct_bore;
    bool pole_line = false;
    std::vector<FixedCharge> charges;
    std::string ban;
    SourcePosition where;
};

/// A point or polygon: a building, or another place.
struct SpotFeature {
    std::string id;
    std::string name;
    PlaceKind kind = PlaceKind::building;
    std::vector<std::vector<Position>> rings;  ///< Outer rings without the repeated last point; one point for a point.
    std::optional<bool> enclosure_allowed;
    std::string enclosure_reason;
    Money enclosure_extra;
    SourcePosition where;
};

/// A polygon that is open ground, an obstacle or an overlay.
struct AreaFeature {
    Area area;
    SourcePosition where;
};

/// What a GeoJSON file holds, in its order. Ids are unique: of the feature, else its property `name`, else "line 7" or
/// "building 7" by its number in the file; a repeated one gets " (2)" behind it.
struct Features {
    std::vector<LineFeature> lines;
    std::vector<SpotFeature> spots;
    std::vector<AreaFeature> areas;
};

/// Reads the features of a GeoJSON text (RFC 7946): a FeatureCollection, a Feature or a bare geometry. Reports what is
/// not GeoJSON, and coordinates that cannot be longitude and latitude. Altitudes are left out.
Features read_features(const Document& document, const GeoJsonOptions& options, Reading& reading, const Draft& draft);

}  // namespace spadework::site_file
