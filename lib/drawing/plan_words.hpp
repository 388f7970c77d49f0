#pragma once

// What a plan says in words: its title block, its description for those who cannot see it, and what a pointer held over
// its parts shows.

#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "drawing/map_frame.hpp"
#include "drawing/plan_lines.hpp"
#include "drawing/title_block.hpp"

namespace spadework::drawing {

std::vector<TitleRow> plan_title_rows(const Scenario& scenario, const LayoutResult& result, const MapFrame& frame);
std::string plan_description(const Scenario& scenario, const LayoutResult& result);

/// "lane: 398.8 m, grass, plough, 3 cables".
std::string trench_in_words(const Scenario& scenario, const DrawnTrench& trench, const std::string& ground_name);
/// "drop-kiosk: cable-4, 4 strands, 79.1 m on the map, 100.0 m ordered".
std::string cable_in_words(const Scenario& scenario, const PlannedCable& cable);
/// "Enclosure at lawn corner, 4 buildings, 12 strands".
std::string enclosure_in_words(const Scenario& scenario, const Plan& plan, const PlannedEnclosure& enclosure);

/// The name of a place, building or segment; its id where it has none. Drawn.
std::string name_or_id(const std::string& name, const std::string& id);

}  // namespace spadework::drawing
