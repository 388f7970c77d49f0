#pragma once

// Routing by rings: closed walks leave a source, visit stops and come back, each stop in exactly one ring.
//
// Partition the stops into ordered rings of at most `longest_ring` stops. Every hop (source to first stop, stop to next
// stop, last stop back to the source) takes a path through the network. The cost
//
//   sum over hops of (weight * length + multiplicity * passage) along the hop's path
//   + ring_cost for every ring
//   + sum of the opening costs of all edges used by any hop, each paid once
//
// is smallest among the rings that survive a cut as well as the map allows. Edges are grouped into cuts: one cut takes
// all edges of its group at once (the ways of using one stretch of ground). The rule is:
//
//   When a cut is taken out of the network, every stop that still has a way to the source over the network still has
//   one along its ring, on one side or the other.
//
// A cut parts a ring's hops into those that pass it and those that do not; the stops between the first hop and the last
// that pass it are lost. So the rule says: a ring passes a cut more than once only where the cut is a bridge of the
// network, and the stops between are all behind that bridge. Where hops may be of any length, plans exist whenever
// every stop can be reached: a ring for each stop, over two ways that share bridges alone (Menger 1927).
//
// Where hops may only be so long, no hop's edges come to more than `longest_hop` by what each of them spans.
//
// All figures are whole numbers in units the caller chooses.

#include <cstdint>
#include <vector>

#include "graph/chain_problem.hpp"

namespace spadework::graph {

struct RingProblem {
    VertexId vertex_count = 0;
    std::vector<SharedCostEdge> edges;
    std::vector<std::int32_t> cut_of;  ///< For each edge its cut, from 0. Edges of one cut join the same two vertices.
    VertexId source = 0;
    std::vector<VertexId> stops;
    Cost weight = 0;
    Cost multiplicity = 1;
    Cost ring_cost = 0;
    std::int32_t longest_ring = 1;
    std::vector<Length> span_of;  ///< For each edge, the same for all of a cut; empty where hops may be of any length.
    Length longest_hop = 0;       ///< Most that the edges of one hop may span together, where they span anything.
};

struct RingPlan {
    using Hop = ChainPlan::Hop;
    struct Ring {
        std::vector<Hop> hops;
        std::vector<EdgeId> back;  ///< From the source to the last stop: the hop that closes the ring.
    };
    std::vector<Ring> rings;
    Cost value = 0;
};

}  // namespace spadework::graph
