#pragma once

#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// Strands one link takes: 2 duplex, 1 bidirectional.
int strands_per_link(StrandUse use);

/// The strand uses that plans of a site may have, in the order of StrandUse.
std::vector<StrandUse> strand_uses(const Rules& rules);

/// The site where plans have one strand use alone.
Scenario settled_on(const Scenario& scenario, StrandUse use);

/// "duplex", "bidirectional".
const char* name_of(StrandUse use);

/// Links of a building, all rates together.
int link_count(const Building& building);

/// Strands in use to a building on a cable of its own.
int strands_in_use(const Building& building, const Rules& rules);

/// How a cable's strand need adds up.
struct StrandNeed {
    int in_use = 0;
    int spare = 0;     ///< By the spare policy.
    int headroom = 0;  ///< For growth; trunks only.
    [[nodiscard]] int total() const { return in_use + spare + headroom; }
};

/// Need of a drop, home run or chain hop.
StrandNeed drop_need(int in_use, const Rules& rules);

/// Need of a trunk: spare = max(least, in_use * trunk_spare rounded up), headroom = in_use * growth.headroom rounded
/// up.
StrandNeed trunk_need(int in_use, const Rules& rules, const Growth& growth);

}  // namespace spadework
