#pragma once

// The part of the network in which one demand looks for its cheapest priced path.

#include <cstdint>
#include <vector>

#include "graph/arc.hpp"
#include "graph/label_heap.hpp"

namespace spadework::graph {

/// An arc into a vertex of the ball.
struct BallArc {
    double cost = 0.0;        ///< Charge against the potential plus price: what the search adds up.
    std::uint32_t tail = 0;   ///< Number of the tail in the ball, or the ball's size when it lies outside.
    std::uint32_t entry = 0;  ///< Where its price is kept (see PriceSearch), or kNoEntry for price and flow 0.
};
constexpr std::uint32_t kNoEntry = 0xFFFFFFFF;

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
    std::vector<ArcId> arc_ids;       ///< For each arc.
    std::vector<std::uint32_t> twin;  ///< For each arc: the opposite arc, where directions share prices; else empty.
    std::vector<double> twin_charge;  ///< For each arc: the charge on its twin.
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
    std::vector<std::uint32_t> met;
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

    /// A ball for the demand with the given prices on its arcs.
    DemandBall build(std::int32_t demand, const std::vector<PathLength>& to_root,
                     const std::vector<std::uint32_t>& root_options, const std::vector<ArcPrice>& prices,
                     BallExtent extent);

private:
    void settle_vertices(DemandBall& ball, const PathRate& rate, const std::vector<PathLength>& to_root,
                         BallExtent extent);
    void write_arcs(DemandBall& ball, const PathRate& rate, const std::vector<PathLength>& to_root);
    void write_twins(DemandBall& ball);

    const SearchNetwork& network_;
    std::vector<double> price_;
    std::vector<double> label_;
    std::vector<std::uint32_t> number_;
    std::vector<VertexId> met_;
    LabelHeap<double> queue_;
};

}  // namespace spadework::graph
