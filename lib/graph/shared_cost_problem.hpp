#pragma once

// The one routing problem every layout with a single fan-out point comes down to.
//
// Given an undirected network, some demands and some candidate roots, choose one root and a path from it to every
// demand so that
//
//   root cost  +  sum of the opening costs of all edges that carry any path, each paid once
//              +  sum over demands of  weight * length + multiplicity * passage  along the demand's own path
//
// is smallest. With all weights zero this is the Steiner tree problem; with all opening costs zero it is shortest
// paths. The literature calls the fixed-root case the cable-trench problem (Vasko, Barbieri, Rieksts, Reitmeyer, Stott
// 2002).
//
// All figures are whole numbers in units the caller chooses, so that a bound can be proved in exact arithmetic.

#include <cstdint>
#include <vector>

namespace spadework::graph {

using VertexId = std::int32_t;
using EdgeId = std::int32_t;
using Cost = std::int64_t;    ///< Whole cost units, never negative.
using Length = std::int64_t;  ///< Whole length units, never negative.

/// One undirected edge. Parallel edges are allowed; loops are allowed and never used.
struct SharedCostEdge {
    VertexId tail = 0;
    VertexId head = 0;
    Cost opening = 0;   ///< Paid once, however many paths use the edge.
    Length length = 0;  ///< Times the demand's weight, paid by every path that uses the edge.
    Cost passage = 0;   ///< Times the demand's multiplicity, paid by every path that uses the edge.
};

/// One path wanted from the root to a vertex. Several demands may share a vertex.
struct Demand {
    VertexId at = 0;
    Cost weight = 0;        ///< Cost a length unit.
    Cost multiplicity = 1;  ///< How many times an edge's passage cost is paid.
};

/// A vertex that may be the root, and what choosing it costs. One option only makes the root fixed.
struct RootOption {
    VertexId at = 0;
    Cost cost = 0;
};

struct SharedCostProblem {
    VertexId vertex_count = 0;
    std::vector<SharedCostEdge> edges;
    std::vector<Demand> demands;
    std::vector<RootOption> roots;
};

/// A choice of root and one simple path to each demand.
struct SharedCostPlan {
    std::int32_t root = -1;                  ///< Index into the problem's roots.
    std::vector<std::vector<EdgeId>> paths;  ///< One for each demand, from the root outwards.
    Cost value = 0;                          ///< Objective of the problem, exact.
};

}  // namespace spadework::graph
