#pragma once

// The network of a ChainProblem without what no shortest way passes and with edges joined where nothing forks.

#include <vector>

#include "graph/adjacency.hpp"
#include "graph/arc.hpp"
#include "graph/chain_problem.hpp"

namespace spadework::graph::chains {

/// Edges of the problem that follow each other, as one edge.
struct JoinedEdge {
    VertexId tail = 0;  ///< Numbered within ForkNetwork.
    VertexId head = 0;
    double opening = 0.0;
    double charge = 0.0;      ///< What one cable pays on it.
    std::vector<ArcId> arcs;  ///< The problem's edges in order from tail to head, each in its direction.
};

/// Source and stops keep their vertices; other vertices are kept where three ways or more meet. Numbers run from 0.
struct ForkNetwork {
    VertexId vertex_count = 0;
    std::vector<JoinedEdge> edges;
    Adjacency steps;
    VertexId source = 0;
    std::vector<VertexId> stops;  ///< In the problem's order.
};

/// Dead ends that lead to no stop and rings that hang at one vertex are left out. The problem is well formed.
ForkNetwork forks_of(const ChainProblem& problem);

}  // namespace spadework::graph::chains
