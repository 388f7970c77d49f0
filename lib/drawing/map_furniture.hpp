#pragma once

#include "drawing/map_frame.hpp"
#include "drawing/picture.hpp"

namespace spadework::drawing {

/// Height of the strip that scale bar and north arrow stand in.
inline constexpr double furniture_height = 44;

/// Scale bar in the site's unit at the left and north arrow at the right, in a strip below the map and inside its
/// border. A group "scale" and a group "north".
void write_furniture(SvgWriter& svg, const Ids& ids, const Scenario& scenario, const MapFrame& frame);

/// The border around the map and its strip.
void write_border(SvgWriter& svg, const MapFrame& frame);

/// "1 : 1,240", for a picture at its natural size, 96 units to the inch; three digits that count.
std::string scale_in_words(const MapFrame& frame);

}  // namespace spadework::drawing
