#pragma once

// Prices for the problem as given that prove a lower bound by themselves, from one ascent on its unreduced network.

#include "graph/shared_cost_solver.hpp"
#include "graph/steiner_stop.hpp"

namespace spadework::graph::steiner {

struct ProvedPrices {
    SharedCostCertificate certificate;
    Cost bound = 0;  ///< What they prove, the root's cost left out. Whole cost units.
};

/// For a Steiner problem (see is_steiner_problem). Each cut that the ascent raises goes to the prices of the terminal
/// it was raised for. Ends early, with less proved, once the given share of the time has passed.
ProvedPrices prices_by_ascent(const SharedCostProblem& problem, const StopSign& stop, double share);

}  // namespace spadework::graph::steiner
