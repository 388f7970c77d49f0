#pragma once

#include <vector>

#include "survey/line_network.hpp"

namespace spadework::survey {

/// The end of a line that was led on to the nearest other line.
struct DeadEndJoin {
    Position from;      ///< The dead end, degrees.
    Position to;        ///< Where it joins.
    int way = 0;        ///< Of the dead end.
    int other_way = 0;  ///< That it now meets.
    double metres = 0;
};

/// Leads the dead ends of usable lines straight on to the nearest usable line within `snap_metres`, where the network
/// does not bring them there within twice that distance anyway. A line is met at ground level or on the dead end's own.
/// The nearest joins come first; a dead end that another was led to is none any more.
std::vector<DeadEndJoin> join_dead_ends(LineNetwork& network, const std::vector<Way>& ways, const LocalPlane& plane,
                                        double snap_metres);

}  // namespace spadework::survey
