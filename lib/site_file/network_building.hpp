#pragma once

#include <optional>
#include <vector>

#include "site_file/draft.hpp"
#include "site_file/edge_search.hpp"
#include "site_file/line_vertices.hpp"

namespace spadework::site_file {

/// A spot that becomes a place, and where it joins the network.
struct JoinedSpot {
    std::size_t spot = 0;
    Attachment attachment;
};

/// Turns lines and the spots joined to them into places and segments of the draft: lines are cut at their ends, where
/// they share a vertex and where a lateral joins; every spot gets a place and, where it stands off the line, a lateral.
/// Junctions are named by their coordinates ("-77.1602630,39.1017410"), pieces of a line "LINE.1", "LINE.2" in its
/// direction, laterals "lateral to SPOT". A piece that would end where it starts is cut once more halfway.
void add_network(Features& features, LineVertices& vertices, const std::vector<JoinedSpot>& joined,
                 const GeoJsonOptions& options, Reading& reading, Draft& draft);

}  // namespace spadework::site_file
