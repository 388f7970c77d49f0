#pragma once

// Ways over a lattice bend where a trench would not. Straight lines in their place become segments of the map, and the
// site is planned once more with them: plans and bounds then speak of the lattice and these lines.

#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::open_ground {

/// A line between two places over open ground.
struct StraightLine {
    PlaceIndex from = 0;  ///< The lower number.
    PlaceIndex to = 0;
    SegmentIndex like = 0;  ///< A segment over the same open ground and overlays, whose ground and charges it shares.
    friend bool operator==(const StraightLine&, const StraightLine&) = default;
};

/// Lines that straighten a plan's ways over open ground, from the segments it uses: from each end or branch as far
/// along the way as can be seen, without leaving its open ground and overlays or entering an obstacle; and between the
/// ends of ways that meet in a branch. By number of place. Lines that the map has already are left out.
std::vector<StraightLine> straight_lines(const Scenario& scenario, const std::vector<SegmentIndex>& used);

/// The site with the lines as further segments, "straight line 3 in lawn".
Scenario with_straight_lines(Scenario scenario, const std::vector<StraightLine>& lines);

}  // namespace spadework::open_ground
