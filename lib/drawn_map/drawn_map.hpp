#pragma once

// What somebody drew: a map as points, lines and areas with what is written beside them, whatever file it came in.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "scenario/scenario.hpp"

namespace spadework::drawn_map {

enum class Shape { point, line, area };

/// "highway" = "footway". In KML an ExtendedData entry, in GPX a child of the track, in CSV a column.
struct Tag {
    std::string key;
    std::string value;
    friend bool operator==(const Tag&, const Tag&) = default;
};

/// One thing on the map. What a file holds as several geometries in one becomes as many features with the same id.
struct Feature {
    std::string id;    ///< As the file names it; may be empty or repeated.
    std::string name;  ///< For people; may be empty.
    Shape shape = Shape::point;
    /// A point: one part of one position. A line: one part of at least two positions, none like the one before it. An
    /// area: its outer ring, then its holes, each of at least three positions without the repeated last one.
    std::vector<std::vector<Position>> parts;
    std::vector<Tag> tags;  ///< In the order of the file, keys once each.
    SourcePosition where;
};

/// A map as read from one file.
struct DrawnMap {
    std::string source;  ///< The name it was given.
    std::string format;  ///< "GeoJSON", "KML", …
    CoordinateSystem coordinates = CoordinateSystem::wgs84_degrees;
    std::vector<Feature> features;
    /// What was in the file and is not used, with how often: "altitudes", "styles", "pictures", "repeated points".
    std::map<std::string, int> left_out;
};

/// Value of the tag with that key; "" where there is none.
const std::string& tag_of(const Feature& feature, std::string_view key);

}  // namespace spadework::drawn_map
