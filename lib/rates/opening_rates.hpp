#pragma once

// What it costs to open a segment, and what every cable then pays to go through it.

#include <string>
#include <vector>

#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework {

/// One way of using a segment: a method of its ground, its existing duct, or its pole line.
struct Way {
    const OpeningMethod* method = nullptr;  ///< Lives as long as the scenario.
    std::string ground;                     ///< Ground id, or "existing duct" or "pole line".
    int room = -1;                          ///< Most cables it takes; -1 means no limit.
    Money opening;                          ///< Paid once: groundworks, set-up and fixed charges.
};

/// The ways of using a segment in a fixed order: the ground's methods in the order of the site file, then the existing
/// duct, then the pole line. Empty when the segment is banned. A method with nothing to recommend it (no cheaper to
/// open nor to pass than another) stays in the list.
std::vector<Way> ways_of(const Scenario& scenario, SegmentIndex segment);

/// Groundworks a metre of a method: crew hours at the crew's rate, plant, material, reinstatement.
UnitPrice groundworks_per_metre(const OpeningMethod& method, const Labour& labour);

/// What one cable pays a metre of segment: its new duct and the pulling, in thousandths of a minor unit.
UnitPrice passage_per_metre(const OpeningMethod& method, const Labour& labour);

}  // namespace spadework
