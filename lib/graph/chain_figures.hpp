#pragma once

// What the figures of a ChainProblem mean, and its orders of stops as plain lists.

#include <cstdint>
#include <vector>

#include "graph/chain_problem.hpp"
#include "graph/pair_routes.hpp"

namespace spadework::graph::chains {

/// Every vertex named exists, no figure is negative, chains may hold a stop, and no plan can cost 2^58 or more, even if
/// it had so many hops for every stop; edges span less than that together.
bool well_formed(const ChainProblem& problem, int hops_a_stop = 1);

/// Chains of indices into the problem's stops.
using Orders = std::vector<std::vector<std::int32_t>>;

inline pair_routes::Charge hop_charge(const ChainProblem& problem) {
    return {problem.weight, problem.multiplicity};
}

/// The hops of the orders as pairs of vertices, the source's first.
std::vector<pair_routes::Pair> hops_of(const ChainProblem& problem, const Orders& orders);

}  // namespace spadework::graph::chains
