#pragma once

// Good plans for a reduced problem.

#include "graph/route_tree.hpp"

namespace spadework::graph {

/// A tree with its cost in search figures: root, openings and charges.
struct TreeFound {
    RouteTree tree;
    double cost = 0.0;
};

/// Builds trees from the root, improves each by local search under `opening`, and keeps the cheapest at true cost.
TreeFound best_tree_from(const SearchNetwork& network, VertexId root, double root_cost,
                         const std::vector<double>& opening);

/// The cheapest tree over the roots that look best from their shortest paths, moving the root where that pays.
TreeFound sketched_tree(const SearchNetwork& network);

}  // namespace spadework::graph
