#pragma once

// From a site with areas to one whose places and segments say all that areas mean, so that whatever routes, prices and
// checks needs to know of places and segments only.

#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::open_ground {

/// The site with its areas worked into its map. Lists must be sorted by id, and are again. A site without areas stays
/// as it is. Deterministic. In this order:
///
/// 1. Segments that enter obstacles are barred, those that lie in overlays cut at the border and priced by them.
/// 2. Segments beside open ground are cut where ways may branch off, without changing what they cost.
/// 3. Places in open ground or within reach of it are joined to it by a step.
/// 4. Open ground becomes a lattice (lattice.hpp) and straight lines in sight (sight_lines.hpp), around obstacles.
/// 5. What nothing of the given map is joined to is left out again.
///
/// Existing places, and segments that no overlay covers, keep their ids or become pieces "drive.1", "drive.2"; all new
/// places are marked as laid out and take no enclosure.
Scenario opened(Scenario scenario);

/// Why a site's open ground cannot be laid out: a spacing so small that the lattice would be out of hand. Empty when it
/// can.
std::string problem_of_lattice(const Scenario& scenario);

}  // namespace spadework::open_ground
