#pragma once

// The places of a plan: their signs, and the labels they want.

#include <vector>

#include "comparison/comparison.hpp"
#include "drawing/label_placing.hpp"
#include "drawing/map_frame.hpp"
#include "drawing/picture.hpp"

namespace spadework::drawing {

enum class SignKind { handhole, future_building, building, enclosure, hub };

struct PlaceSign {
    SignKind kind = SignKind::building;
    Point at;
    double half = 5;
    std::string label;  ///< Drawn; empty for none.
    std::string title;  ///< What a pointer held over it shows.
};

/// Signs in the order they are drawn: the hub last, on top. Smaller where there are many.
std::vector<PlaceSign> plan_signs(const Scenario& scenario, const LayoutResult& result, const MapFrame& frame);

/// One group for each kind that occurs: "handholes", "future-buildings", "buildings", "enclosures", "hub".
void write_signs(SvgWriter& svg, const Ids& ids, const std::vector<PlaceSign>& signs);

/// A sign alone, for maps and legends.
void write_sign(SvgWriter& svg, const PlaceSign& sign);

/// What a kind is called in a legend.
const char* name_of(SignKind kind);

/// The labels the signs want, in the order of the signs that have one; the hub and enclosures choose first.
std::vector<LabelWish> label_wishes(const std::vector<PlaceSign>& signs);

}  // namespace spadework::drawing
