#pragma once

// A demand's priced distances from the roots, found again and again while prices change a little.

#include "graph/demand_ball.hpp"

namespace spadework::graph {

/// What a search found in one ball.
struct BallPaths {
    std::vector<double> root_distance;  ///< For each of the ball's roots.
    double outside_distance = 0.0;
    std::vector<BallStep> path;  ///< One root option: the cheapest path, root's end first. Steers the next search.
    std::vector<std::uint32_t> next_arc;     ///< Several: for each vertex and the outside, arc towards the demand, ...
    std::vector<std::uint32_t> next_vertex;  ///< ... and its head.
};

/// Scratch space of a search, one for each thread.
struct BallScratch {
    std::vector<double> label;
    std::vector<std::uint32_t> next_arc;
    std::vector<std::uint32_t> next_vertex;
    std::vector<std::uint64_t> waiting;  ///< One bit a vertex: its label fell since its arcs were looked at.
};

/// Corrects labels vertex by vertex in the ball's own order, going back where a label falls, until none falls. The
/// order is that of the distances when the ball was built, so hardly any vertex is looked at twice. With one root
/// option a path found before bounds how far to look, and `paths.path` becomes the cheapest one.
template <class Real>
void search_ball(const SearchNetwork& network, const DemandBall<Real>& ball, bool one_option, BallScratch& scratch,
                 BallPaths& paths);

/// After a search for several root options: the cheapest path from root number `root` of the ball, or from the outside
/// for -1, root's end first.
template <class Real>
void path_from(const SearchNetwork& network, const DemandBall<Real>& ball, const BallPaths& paths, std::int32_t root,
               std::vector<BallStep>& path);

}  // namespace spadework::graph
