#pragma once

#include <vector>

#include "survey/findings.hpp"
#include "survey/network_cleaning.hpp"

namespace spadework::survey {

/// The parts of the usable lines that do not hang together with the hub's part, the longest first, each with how far it
/// is from that part.
std::vector<LeftOverPart> left_over_parts(const LineNetwork& network, const std::vector<Way>& ways, const Parts& parts,
                                          int hub_part, const LocalPlane& plane);

}  // namespace spadework::survey
