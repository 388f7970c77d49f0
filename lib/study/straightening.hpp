#pragma once

// Ways over open ground made straight: a first, quick round of plans on the lattice shows where lines are wanted, and
// the study proper is then made on the map with these lines.

#include <vector>

#include "layout/design.hpp"
#include "scenario/scenario.hpp"
#include "study/study.hpp"

namespace spadework {

/// A site with straight lines added to its map.
struct Straightened {
    Scenario scenario;
    std::vector<Design> known;  ///< The first round's plans on this map.
};

/// Plans each layout within a share of the time, and adds straight lines for what these plans lay over open ground (see
/// open_ground/straight_lines.hpp). A site without open ground comes back as it is. A study of the new site that knows
/// these plans finds none dearer.
Straightened straighten(const Scenario& scenario, const StudyOptions& options);

}  // namespace spadework
