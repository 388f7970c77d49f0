#pragma once

#include "drawing/map_frame.hpp"
#include "drawing/picture.hpp"

namespace spadework::drawing {

/// Signs for places on a map, told apart by shape. `half` is half the width of the sign.
void write_hub(SvgWriter& svg, const Point& at, double half, std::string_view title);
void write_building(SvgWriter& svg, const Point& at, double half, std::string_view title);
/// A building that may come later.
void write_future_building(SvgWriter& svg, const Point& at, double half, std::string_view title);
void write_enclosure(SvgWriter& svg, const Point& at, double half, std::string_view title);
void write_handhole(SvgWriter& svg, const Point& at, double half, std::string_view title);

/// The square around a sign.
Rectangle around(const Point& at, double half);

}  // namespace spadework::drawing
