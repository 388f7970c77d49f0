#pragma once

#include "site_file/draft.hpp"
#include "site_file/fields.hpp"
#include "site_file/sources.hpp"

namespace spadework::site_file {

/// Reads the GeoJSON file that map.geojson names and makes places and segments of it, the hub's place among them. Only
/// the spots that the site speaks of become places: the hub, the buildings listed or taken, future buildings, and all
/// handholes, poles and junctions. Each joins the lines that hang together with the hub's, at their nearest point. The
/// hub joins the longest part of the network that is near enough.
void read_geojson_map(Fields& map, const Fields& site, Sources& sources, Reading& reading, Draft& draft);

}  // namespace spadework::site_file
