#pragma once

// Small maps for tests: positions are metres east and north of a point in open country, turned into degrees.

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "drawn_map/drawn_map.hpp"
#include "scenario/local_plane.hpp"
#include "site_file/source_text.hpp"
#include "survey/map_contents.hpp"
#include "survey/survey.hpp"
#include "survey/tag_table_reading.hpp"

namespace spadework::survey {

inline Position degrees_at(double east, double north) {
    static const LocalPlane plane(CoordinateSystem::wgs84_degrees, {{11.5, 50.0}});
    return plane.from_plane({east, north});
}

inline std::vector<Position> in_degrees(const std::vector<Position>& metres) {
    std::vector<Position> degrees;
    for (const Position& at : metres)
        degrees.push_back(degrees_at(at.x, at.y));
    return degrees;
}

using Tags = std::vector<drawn_map::Tag>;

inline drawn_map::Feature line(const std::string& id, const std::vector<Position>& metres, Tags tags = {}) {
    return {id, "", drawn_map::Shape::line, {in_degrees(metres)}, std::move(tags), {"map", 1, 1}};
}

inline drawn_map::Feature area(const std::string& id, const std::vector<Position>& metres, Tags tags) {
    return {id, "", drawn_map::Shape::area, {in_degrees(metres)}, std::move(tags), {"map", 1, 1}};
}

/// A square building of 10 m with its middle there.
inline drawn_map::Feature house(const std::string& id, double east, double north) {
    return area(id, {{east - 5, north - 5}, {east + 5, north - 5}, {east + 5, north + 5}, {east - 5, north + 5}},
                {{"building", "yes"}});
}

inline drawn_map::Feature point(const std::string& id, double east, double north, Tags tags) {
    return {id, "", drawn_map::Shape::point, {{degrees_at(east, north)}}, std::move(tags), {"map", 1, 1}};
}

inline drawn_map::DrawnMap map_of(std::vector<drawn_map::Feature> features) {
    return {"map", "GeoJSON", CoordinateSystem::wgs84_degrees, std::move(features), {}};
}

inline std::string text_of_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

inline std::string shipped(const std::string& name) {
    return text_of_file(std::string(SPADEWORK_SOURCE_DIR) + "/scenarios/" + name);
}

/// The table of tags that comes with the program.
inline const TagTable& shipped_table() {
    static const TagTable table = [] {
        Diagnostics diagnostics;
        const auto grounds = ground_names({"grounds.yaml", shipped("survey/grounds.yaml")}, diagnostics);
        return read_tag_table({"tags.yaml", shipped("survey/tags.yaml")}, grounds.value(), {}, diagnostics).value();
    }();
    return table;
}

/// The ways of some lines.
inline MapContents contents_of_lines(std::vector<drawn_map::Feature> lines) {
    return contents_of({map_of(std::move(lines))}, shipped_table(), "asphalt");
}

inline LocalPlane plane_here() {
    return {CoordinateSystem::wgs84_degrees, {{11.5, 50.0}}};
}

}  // namespace spadework::survey
