#pragma once

#include <string>

#include "scenario/scenario.hpp"

namespace spadework::testing {

/// Hub "h" and places a, b, c, … in a row, 10 m apart, with one ground and no segments.
inline Scenario places_in_a_row(int count) {
    Scenario scenario;
    for (int i = 0; i < count; ++i) {
        Place place;
        place.id = std::string(1, static_cast<char>('a' + i));
        place.at = {10.0 * i, 0};
        scenario.places.push_back(place);
    }
    Ground ground;
    ground.id = "grass";
    ground.methods.resize(1);
    scenario.grounds.push_back(ground);
    return scenario;
}

inline void join(Scenario& scenario, PlaceIndex from, PlaceIndex to, const std::string& ban = "") {
    Segment segment;
    segment.id = "s" + std::to_string(scenario.segments.size());
    segment.from = from;
    segment.to = to;
    segment.length = Length::from_metres(10);
    segment.ban = ban;
    scenario.segments.push_back(segment);
}

inline void add_building(Scenario& scenario, PlaceIndex place) {
    Building building;
    building.id = "building " + std::to_string(scenario.buildings.size());
    building.place = place;
    building.links = {{BitRate::from_megabits(1000), 1}};
    scenario.buildings.push_back(building);
}

}  // namespace spadework::testing
