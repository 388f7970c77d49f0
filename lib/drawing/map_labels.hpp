#pragma once

// Labels of a map as they are drawn, and the list of those that stand as numbers.

#include <string>
#include <vector>

#include "drawing/label_placing.hpp"
#include "drawing/picture.hpp"

namespace spadework::drawing {

/// The group "labels": leaders, then each text on a box of paper that keeps lines off it.
void write_labels(SvgWriter& svg, const Ids& ids, const std::vector<LabelWish>& wishes,
                  const std::vector<PlacedLabel>& labels);

/// Whether any label is shown as a number.
bool any_numbered(const std::vector<PlacedLabel>& labels);

/// The group "index": what the numbers stand for, in columns from y on; returns the y below it. A number that found no
/// room on the map either is marked with a star.
double write_index(SvgWriter& svg, const Ids& ids, double left, double right, double y,
                   const std::vector<LabelWish>& wishes, const std::vector<PlacedLabel>& labels);

}  // namespace spadework::drawing
