#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::survey {

/// A polygon: its outer ring, then its holes; degrees.
using Polygon = std::vector<std::vector<Position>>;

/// What the contractor decides about a survey.
struct SurveyOptions {
    std::string hub;                     ///< Name or id of a building; not used where `hub_near` is given.
    std::optional<Position> hub_near;    ///< The building there, or else the nearest vertex of a line.
    std::vector<std::string> buildings;  ///< Names or ids of those wanted; empty: all.
    int nearest = 0;                     ///< Only so many, those nearest to the hub; 0: no limit.
    std::vector<Polygon> within;         ///< Only buildings with their middle in one of these; empty: no limit.
    std::string default_ground = "asphalt";
    std::string lateral_ground = "grass";
    double snap_metres = 1;
    double longest_lateral_metres = 100;
    bool areas = false;  ///< Take open ground, obstacles and overlays.
};

}  // namespace spadework::survey
