#pragma once

#include <string>
#include <vector>

#include "strand_map/strand_map.hpp"

namespace spadework {

/// Looks a strand map over with code that shares nothing with what made it: every strand of every cable is there once
/// and ends somewhere; every link has its strands in each cable it passes, and they meet at one adapter in an
/// enclosure; no adapter and no port serves two, none is beyond what the gear has; the strands set aside are those the
/// plan counted. One sentence for each thing wrong; empty when all holds.
std::vector<std::string> strand_map_violations(const Scenario& scenario, const Plan& plan, const StrandMap& map);

}  // namespace spadework
