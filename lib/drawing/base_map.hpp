#pragma once

// What lies below a plan or a map of places: areas and the lines of the map, in quiet tones.

#include <string>
#include <vector>

#include "drawing/map_frame.hpp"
#include "drawing/picture.hpp"

namespace spadework::drawing {

/// "M10 20 L30 40" of a line, with two digits behind the point.
std::string path_of(const std::vector<Point>& line);
std::string path_of(const std::vector<std::vector<Point>>& lines);

/// How segments that are not used are drawn.
inline constexpr const char* unused_colour = "#a8a8a8";
inline constexpr double unused_width = 1;

/// Fill and stroke of an area.
Attributes area_look(AreaUse use);

/// Uses of areas that can be seen within the frame.
struct AreasSeen {
    bool open_ground = false;
    bool obstacle = false;
    bool overlay = false;
};

/// The group "areas": open ground, obstacles and overlays, with holes.
AreasSeen write_areas(SvgWriter& svg, const Ids& ids, const Scenario& scenario, const MapFrame& frame);

/// The group "unused": segments of the map that are not in `used`, thin and grey; lines that merely cross open ground
/// are left out, since it may be crossed anywhere. Says whether there are any in sight.
bool write_unused(SvgWriter& svg, const Ids& ids, const Scenario& scenario, const MapFrame& frame,
                  const std::vector<bool>& used);

}  // namespace spadework::drawing
