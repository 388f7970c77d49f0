#pragma once

// The part of the network in which one demand looks for its cheapest priced path.

#include <cstdint>
#include <span>
#include <vector>

#include "graph/arc.hpp"
#include "graph/label_heap.hpp"

namespace spadework::graph {

/// An arc into a vertex of the ball.
template <class Real>
struct BallArc {
    Real cost = 0;           ///< Charge against the potential plus price: what the search adds up.
    std::uint32_t tail = 0;  ///< Number of the tail in the ball, or the ball's size when it lies outside.
};
constexpr std::uint32_t kNoArc = 0xFFFFFFFF;

/// A root of the problem that lies in the ball.
struct BallRoot {
    std::uint32_t vertex = 0;
    std::uint32_t option = 0;
};

/// An arc of a path in the ball.
struct BallStep {
    std::uint32_t place = 0;  ///< Among the ball's arcs.
    ArcId arc = 0;            ///< In the network.
};

/// The ball and its costs. All that lies outside counts as one vertex from which every root is reached free of
/// (potential-reduced) charge, so that a distance found in the ball is never too long. `Real` is float where memory
/// matters more than the last digits.
template <class Real>
struct DemandBall {
    std::vector<VertexId> vertices;    ///< In the order of the distance from the demand, whose vertex is the first.
    std::vector<std::uint32_t> first;  ///< Arcs into vertex i of the ball: first[i] .. first[i+1]-1, as in the network.
    std::vector<BallArc<Real>> arcs;
    std::vector<std::uint32_t> twin;  ///< For each arc: the opposite arc, where directions share prices; else empty.
    std::vector<Real> twin_charge;    ///< For each arc: the charge on its twin.
    std::vector<BallRoot> roots;      ///< At different vertices.
    bool all_roots = true;            ///< No root of the problem lies outside.
    double offset = 0.0;              ///< Potential of the demand's vertex: what to add to a reduced distance.

    [[nodiscard]] std::uint32_t outside() const { return static_cast<std::uint32_t>(vertices.size()); }
};

/// Potential of a vertex for a demand: what it pays at least from the nearest root to there.
inline double potential(const PathRate& rate, const std::vector<PathLength>& to_root, VertexId v) {
    return charge(rate, to_root[v]);
}

/// How far a ball goes.
struct BallExtent {
    double radius = 0.0;       ///< Vertices at most this far from the demand are in it, ...
    double price_share = 1.0;  ///< ... where distance counts this share of the prices.
};

/// What a demand holds on an arc.
template <class Real>
struct Holding {
    ArcId arc = 0;
    Real price = 0;
    Real flow = 0;                 ///< Average use by the demand's paths, 0 to 1.
    std::uint32_t place = kNoArc;  ///< The arc's place in the ball, once a ball is built; none when it lies outside.
};

/// Builds balls for one network; one for each thread.
template <class Real>
class BallBuilder {
public:
    explicit BallBuilder(const SearchNetwork& network);

    /// A ball for the demand around the prices it holds; says in the holdings where their arcs are. Prices are not yet
    /// part of the arcs' costs.
    DemandBall<Real> build(std::int32_t demand, const std::vector<PathLength>& to_root,
                           const std::vector<std::uint32_t>& root_options, std::span<Holding<Real>> holdings,
                           BallExtent extent);

private:
    void settle_vertices(DemandBall<Real>& ball, const PathRate& rate, const std::vector<PathLength>& to_root,
                         BallExtent extent);
    void write_arcs(DemandBall<Real>& ball, const PathRate& rate, const std::vector<PathLength>& to_root);
    void write_twins(DemandBall<Real>& ball);
    [[nodiscard]] std::uint32_t place_of(const DemandBall<Real>& ball, ArcId arc) const;
    void set_prices(std::span<const Holding<Real>> holdings, bool on);

    const SearchNetwork& network_;
    std::vector<Real> price_;
    std::vector<double> label_;
    std::vector<std::uint32_t> number_;
    std::vector<VertexId> met_;
    LabelHeap<double> queue_;
};

/// The network's arc at a place into the ball's vertex number `head`.
template <class Real>
ArcId arc_at(const SearchNetwork& network, const DemandBall<Real>& ball, std::uint32_t head, std::uint32_t place) {
    const Step& step = network.steps.from(ball.vertices[head])[place - ball.first[head]];
    return arc_from(network, step.edge, step.to);
}

}  // namespace spadework::graph
