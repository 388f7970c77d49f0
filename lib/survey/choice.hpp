#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "survey/map_contents.hpp"
#include "survey/survey_options.hpp"

namespace spadework::survey {

/// Where the hub is: a building, or a point of a line.
struct HubChoice {
    std::optional<std::size_t> building;  ///< Index into the buildings of the contents.
    Position at;                          ///< The point asked for; the building's middle where it was named.
};

/// The hub that the options name. Nothing, and an error, where no building has the name, or more than one.
std::optional<HubChoice> choose_hub(const MapContents& contents, const SurveyOptions& options,
                                    Diagnostics& diagnostics);

/// The buildings that may be linked, those nearest to the hub first, without the limit on their number; names that no
/// building has are errors.
std::vector<std::size_t> choose_buildings(const MapContents& contents, const HubChoice& hub,
                                          const SurveyOptions& options, Diagnostics& diagnostics);

/// The mean of an outline's corners, in degrees.
Position middle_of(const DrawnBuilding& building);

/// Whether a polygon holds a position, its holes left out.
bool polygon_holds(const Polygon& polygon, const Position& at);

}  // namespace spadework::survey
