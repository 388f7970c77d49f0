#pragma once

// One route's strands cut into cables: which product each is, and which links run in it.

#include <optional>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// A cable on a route, before it has a name or steps.
struct CablePiece {
    int product = 0;
    StrandNeed need;
    std::vector<int> links;  ///< Positions in the list of links given, ascending.
};

/// Cables for `need` over a route, with links of `strands_per_link` placed whole: a link's strands are never split
/// between two cables. One cable where one is large enough. Nothing when the catalogue has no cable that can hold a
/// link.
/// Each cable pays `passage` for its ducts and its pulling.
std::optional<std::vector<CablePiece>> pieces_for(const Scenario& scenario, StrandNeed need, int links, Length route,
                                                  Money passage = {});

}  // namespace spadework
