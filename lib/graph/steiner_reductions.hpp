#pragma once

// Reductions that keep every cheapest tree, or at least one. They do not need a known plan.

#include "graph/steiner_graph.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph::steiner {

/// Until nothing changes: cuts dead ends, passes through vertices of two edges, takes edges that cost nothing, a
/// terminal's only edge, and a terminal's cheapest edge where it leads to a terminal. Looks only at vertices touched
/// since the last time.
void settle_degrees(Graph& graph);

/// Erases what hangs together with no terminal.
void erase_cut_off(Graph& graph);

/// Erases edges that cost more than the special distance between their ends; returns how many. Deletions of this kind
/// leave all special distances as they were, so they can be found together.
std::size_t erase_long_edges(Graph& graph, WorkerTeam& team);

/// Eliminates vertices of up to `most_edges` edges that no cheapest tree uses with more than two: where, for any three
/// or more of its neighbours, a spanning tree by special distances costs less than their edges to it. Returns how many.
std::size_t eliminate_bypassed(Graph& graph, WorkerTeam& team, std::size_t most_edges);

/// Takes edges that every cheapest tree has: a terminal's cheapest edge or the cheapest edge out of what lies nearest
/// to it, where the next cheapest costs more than the whole way over the edge to another terminal. Polzin and
/// Vahdati Daneshmand, "Improved algorithms for the Steiner problem in networks", Discrete Applied Mathematics 112
/// (2001). Returns how many.
std::size_t contract_sure_edges(Graph& graph);

}  // namespace spadework::graph::steiner
