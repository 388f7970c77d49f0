#pragma once

// A demand's priced distances from the roots, found again and again while prices change a little.

#include "graph/demand_ball.hpp"

namespace spadework::graph {

/// What a search found in one ball.
struct BallPaths {
    std::vector<double> root_distance;  ///< For each of the ball's roots.
    double outside_distance = 0.0;
    std::vector<std::uint32_t> path;         ///< One root option: places of the cheapest path's arcs, root's end first.
    std::vector<std::uint32_t> next_place;   ///< Several: for each vertex and the outside, arc towards the demand, ...
    std::vector<std::uint32_t> next_vertex;  ///< ... and its head.
};

/// Searches balls of one network; one for each thread.
template <class Real>
class BallSearch {
public:
    BallSearch(const InwardArcs& arcs, VertexId vertex_count, bool shared_by_directions);

    /// Corrects labels vertex by vertex in the ball's own order, going back where a label falls, until none falls. The
    /// order is that of the distances when the ball was built, so hardly any vertex is looked at twice. With one root
    /// option a path found before bounds how far to look, and `paths.path` becomes the cheapest one.
    void run(const DemandBall& ball, const PathRate& rate, const HeldPrices<Real>& held, bool one_option,
             BallPaths& paths);

private:
    void begin(const DemandBall& ball);
    [[nodiscard]] double cost_of_path(const std::vector<std::uint32_t>& path) const;
    void sweep();
    std::size_t expand(std::uint32_t here, std::size_t word);
    void write(const DemandBall& ball, bool one_option, BallPaths& paths) const;

    const InwardArcs& arcs_;
    PriceField<Real> prices_;
    std::vector<std::uint32_t> number_;  ///< For each spot its number in the ball.
    std::vector<double> label_;          ///< For each vertex of the ball, then the outside, like the next three.
    std::vector<std::uint32_t> next_place_;
    std::vector<std::uint32_t> next_vertex_;
    std::vector<std::uint64_t> waiting_;  ///< One bit a vertex: its label fell since its arcs were looked at.
    const std::uint32_t* spots_ = nullptr;
    PathRate rate_;
    std::uint32_t outside_ = 0;
    std::uint32_t goal_ = 0;  ///< A label here is a limit for all others.
    double limit_ = 0.0;      ///< Labels above are of no use.
};

/// Follows next arcs from a vertex number, or the outside, to the demand; places with the root's end first.
void trace(const std::vector<std::uint32_t>& next_place, const std::vector<std::uint32_t>& next_vertex,
           std::uint32_t from, std::vector<std::uint32_t>& path);

}  // namespace spadework::graph
