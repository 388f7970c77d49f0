#pragma once

// Routing by chains: paths leave a source and visit every stop once, each stop in exactly one chain.
//
// Partition the stops into ordered chains of at most `longest_chain` stops. Every hop (source to first stop, stop to
// next stop) takes a path through the network. The cost
//
//   sum over hops of (weight * length + multiplicity * passage) along the hop's path
//   + chain_cost for every chain
//   + for each stop, its `end_saving` is taken off when the stop is the last of its chain
//   + sum of the opening costs of all edges used by any hop, each paid once
//
// is smallest. Where hops may only be so long, no hop's edges come to more than `longest_hop` by what each of them
// spans. All figures are whole numbers in units the caller chooses.

#include <cstdint>
#include <vector>

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

struct ChainProblem {
    VertexId vertex_count = 0;
    std::vector<SharedCostEdge> edges;
    VertexId source = 0;
    std::vector<VertexId> stops;
    Cost weight = 0;
    Cost multiplicity = 1;
    Cost chain_cost = 0;
    Cost end_saving = 0;
    std::int32_t longest_chain = 1;
    std::vector<Length> span_of;  ///< For each edge; empty where hops may be of any length.
    Length longest_hop = 0;       ///< Most that the edges of one hop may span together, where they span anything.
};

struct ChainPlan {
    struct Hop {
        std::int32_t stop = 0;     ///< Index into the problem's stops: where the hop arrives.
        std::vector<EdgeId> path;  ///< From the source or the stop before.
    };
    std::vector<std::vector<Hop>> chains;
    Cost value = 0;
};

}  // namespace spadework::graph
