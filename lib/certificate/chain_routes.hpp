#pragma once

// The least cost of a set of routes as the claim of graph/chain_certificate.hpp names them.

#include <cstdint>
#include <vector>

#include "certificate/least_figures.hpp"
#include "graph/shared_cost_problem.hpp"

namespace spadework::certificate {

/// [arrives at][comes from], the source as the last to come from.
using HopCosts = std::vector<std::vector<Wide>>;

/// Routes start at the source and have up to `longest` stops; no two end at the same stop, and together they have as
/// many steps as there are stops. A step costs its hop less what visiting the stop earns; a route costs `end_costs` of
/// the stop where it ends besides. A route may come back to a stop once it has forgotten it: after a step it remembers
/// where it came from and what it remembered before, as far as these are among the neighbours of where it is.
Wide least_routes(const HopCosts& hops, const std::vector<graph::Cost>& visits,
                  const std::vector<std::vector<std::int32_t>>& neighbours, int longest,
                  const std::vector<Wide>& end_costs);

}  // namespace spadework::certificate
