#pragma once

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// The plan of a feasible layout as a GeoJSON FeatureCollection (RFC 7946): the hub, buildings, enclosures and places
/// passed as Points, segments in use and cables as LineStrings. `kind` tells them apart: "hub", "building",
/// "enclosure", "place", "trench", "existing-duct", "pole-line", "cable". Lengths are in metres, money in the
/// currency's major unit, positions exactly those of the site. On a site with plane coordinates the text is of the same
/// form, but positions are metres and a `note` says so, since the format itself knows only longitude and latitude.
std::string plan_geojson(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework::report
