#pragma once

// What the indices in a plan stand for.

#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "layout/plan.hpp"
#include "rates/opening_rates.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

const Place& place_at(const Scenario& scenario, PlaceIndex place);
const Building& building_at(const Scenario& scenario, BuildingIndex building);
const Segment& segment_at(const Scenario& scenario, SegmentIndex segment);
const CableProduct& product_of(const Scenario& scenario, const PlannedCable& cable);
const OpticProduct& optic_of(const Scenario& scenario, const PlannedLink& link);
Way way_of(const Scenario& scenario, const Step& step);

/// Where a link begins: a building's id, or "hub".
std::string link_origin(const Scenario& scenario, const PlannedLink& link);

/// Strands of all trunks to an enclosure, as laid.
int trunk_strands(const Scenario& scenario, const Plan& plan, const PlannedEnclosure& enclosure);
/// Strands that the enclosures of one place can patch through.
int adapters_of(const Scenario& scenario, const PlannedEnclosure& enclosure);
/// "2 x post-12, 1 x post-24".
std::string products_in_words(const Scenario& scenario, const PlannedEnclosure& enclosure);

/// Ids with a separator between them.
std::string ids_of(const Scenario& scenario, const std::vector<BuildingIndex>& buildings, const char* separator);

/// Whether any layout that can be built has an enclosure.
bool any_enclosure(const Comparison& comparison);

/// Metres of all cables of a layout, as ordered.
Length cable_ordered(const LayoutResult& result);

/// "home-run", "trunk", "drop", "hop".
const char* id_of(CableRole role);
/// "note", "warning", "error".
const char* id_of(FindingSeverity severity);
/// "job", "segment", "cable", "building", "enclosure", "hub".
const char* id_of(CauseKind kind);

}  // namespace spadework::report
