#pragma once

#include <optional>
#include <string_view>

#include "scenario/scenario.hpp"

namespace spadework {

/// Number of the place, segment, building or ground with that id, or nothing. The lists are sorted by id.
std::optional<PlaceIndex> find_place(const Scenario& scenario, std::string_view id);
std::optional<SegmentIndex> find_segment(const Scenario& scenario, std::string_view id);
std::optional<BuildingIndex> find_building(const Scenario& scenario, std::string_view id);
std::optional<int> find_ground(const Scenario& scenario, std::string_view id);

}  // namespace spadework
