#pragma once

// The part of the network in which one demand looks for its cheapest priced path.

#include <cstdint>
#include <vector>

#include "graph/arc.hpp"
#include "graph/label_heap.hpp"

namespace spadework::graph {

/// An arc into a vertex of the ball, with what one demand pays on it.
struct BallArc {
    std::uint32_t tail = 0;  ///< Number of the tail in the ball, or the ball's size when it lies outside.
    ArcId arc = 0;
    double charge =
        0.0;  ///< Against the potential: own charge + potential of tail - potential of head, never negative.
    double price = 0.0;
};

/// A root of the problem that lies in the ball.
struct BallRoot {
    std::uint32_t vertex = 0;
    std::uint32_t option = 0;
};

/// The ball, its prices and its flows. All that lies outside counts as one vertex from which every root is reached free
/// of (potential-reduced) charge, so that a distance found in the ball is never too long.
struct DemandBall {
    std::vector<VertexId> vertices;    ///< The demand's vertex first.
    std::vector<std::uint32_t> first;  ///< Arcs into vertex i of the ball: first[i] .. first[i+1]-1.
    std::vector<BallArc> arcs;
    std::vector<double> flow;         ///< For each arc: average use by the demand's paths, 0 to 1.
    std::vector<char> listed;         ///< For each arc: whether it is among `used`.
    std::vector<std::uint32_t> used;  ///< Arcs with a price or a flow.
    std::vector<std::uint32_t> twin;  ///< For each arc: the opposite arc, where directions share prices; else empty.
    std::vector<BallRoot> roots;      ///< At different vertices.
    std::vector<char> is_root;        ///< For each vertex.
    bool all_roots = true;            ///< No root of the problem lies outside.
    double offset = 0.0;              ///< Potential of the demand's vertex: what to add to a reduced distance.

    std::vector<double> root_distance;       ///< Last search: for each of `roots`.
    double outside_distance = 0.0;           ///< Last search: to the outside.
    std::vector<std::uint32_t> next_arc;     ///< Last search: for each vertex and the outside, arc towards the demand.
    std::vector<std::uint32_t> next_vertex;  ///< Last search: its head.
};

/// Scratch space of a search, one for each thread.
struct BallScratch {
    LabelHeap<double> queue;
    std::vector<double> label;
};

/// Priced distances from the ball's roots (and the outside) to the demand.
void search_ball(DemandBall& ball, BallScratch& scratch);

/// Arcs of the last search's cheapest path from root number `root` of the ball, or from the outside for -1.
void path_in_ball(const DemandBall& ball, std::int32_t root, std::vector<std::uint32_t>& path);

/// Potential of a vertex for a demand: what it pays at least from the nearest root to there.
inline double potential(const PathRate& rate, const std::vector<PathLength>& to_root, VertexId v) {
    return charge(rate, to_root[v]);
}

/// How far a ball goes.
struct BallExtent {
    double radius = 0.0;       ///< Vertices at most this far from the demand are in it, ...
    double price_share = 1.0;  ///< ... where distance counts this share of the prices.
};

/// Builds balls for one network; one for each thread.
class BallBuilder {
public:
    explicit BallBuilder(const SearchNetwork& network);

    /// A ball for the demand with the given prices and flows on its arcs (flows 0 where not given).
    DemandBall build(std::int32_t demand, const std::vector<PathLength>& to_root,
                     const std::vector<std::uint32_t>& root_options, const std::vector<ArcPrice>& prices,
                     const std::vector<ArcPrice>& flows, BallExtent extent);

private:
    void settle_vertices(DemandBall& ball, const PathRate& rate, const std::vector<PathLength>& to_root,
                         BallExtent extent);
    void write_arcs(DemandBall& ball, const PathRate& rate, const std::vector<PathLength>& to_root);
    void write_twins(DemandBall& ball);

    const SearchNetwork& network_;
    std::vector<double> price_;
    std::vector<double> flow_;
    std::vector<double> label_;
    std::vector<std::uint32_t> number_;
    std::vector<VertexId> met_;
    LabelHeap<double> queue_;
};

}  // namespace spadework::graph
