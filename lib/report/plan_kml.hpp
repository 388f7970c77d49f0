#pragma once

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// Whether the site's positions are longitude and latitude, the only ones that KML knows.
bool has_kml(const Scenario& scenario);

/// The plan of a feasible layout as KML 2.2 (OGC 07-147r2): a folder each of places, trenches and cables, every feature
/// with its facts in its balloon and as ExtendedData. Positions are exactly those of the site, which must be in degrees
/// (has_kml()). Names are shown and never obeyed, in the balloon's HTML as well.
std::string plan_kml(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework::report
