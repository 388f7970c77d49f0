#pragma once

#include <map>
#include <string>
#include <vector>

#include "site_file/draft.hpp"
#include "site_file/fields.hpp"

namespace spadework::site_file {

/// What polygons are by the value of a property: areas without id and border.
struct AreaRule {
    std::string property;
    std::map<std::string, Area> kinds;  ///< "*" stands for every other value but "no".
};

/// How a GeoJSON file is to be read as a map.
struct GeoJsonOptions {
    std::string file;
    SourcePosition file_position;

    std::string ground_property;
    std::map<std::string, int> ground_by_value;
    int default_ground = 0;
    int lateral_ground = 0;

    std::string length_property;  ///< Empty: lengths are those along the lines.

    std::string ban_property;
    std::map<std::string, std::string> ban_by_value;

    std::string building_property;  ///< Empty: every point and polygon is a building.
    bool take_all = false;
    std::vector<std::string> take;  ///< Ids or names.
    std::vector<SourcePosition> take_positions;
    int nearest = 0;  ///< 0: no limit.
    std::vector<LinkDemand> links;
    std::vector<DeviceGroup> devices;

    std::vector<AreaRule> area_rules;  ///< The first that fits counts.

    double longest_lateral_metres = 0;
    bool skip_cut_off = false;
};

/// Reads the section map.geojson. Grounds must have been read.
GeoJsonOptions read_geojson_options(Fields fields, Reading& reading, const Draft& draft);

}  // namespace spadework::site_file
