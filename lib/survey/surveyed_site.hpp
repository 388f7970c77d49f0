#pragma once

// The site that a survey makes, as plain values ready to be written.

#include <string>
#include <vector>

#include "scenario/scenario.hpp"
#include "survey/map_contents.hpp"

namespace spadework::survey {

struct SitePlace {
    std::string id;
    std::string name;  ///< For people; may be the id.
    PlaceKind kind = PlaceKind::junction;
    Position at;  ///< Degrees, to 10^-7.
};

struct SiteSegment {
    std::string id;
    std::string name;  ///< May be empty.
    int from = 0;      ///< Index into the places.
    int to = 0;
    std::vector<Position> polyline;  ///< Both ends included; degrees, to 10^-7.
    double metres = 0;               ///< Geodesic length of the polyline.
    int ground_choice = -1;          ///< Index into ground_choices; -1 for a lateral.
    std::string ban;
    std::vector<FixedCharge> charges;
};

struct SurveyedSite {
    std::vector<SitePlace> places;      ///< The hub, the buildings by id, then the junctions by id.
    std::vector<SiteSegment> segments;  ///< In the order of the ways, then the laterals by building.
    std::vector<DrawnArea> areas;
    std::vector<GroundChoice> ground_choices;
    std::string lateral_ground;
    int buildings = 0;  ///< places[1] to places[buildings].
};

}  // namespace spadework::survey
