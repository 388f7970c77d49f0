#pragma once

// The part of the network in which one demand looks for its cheapest priced path.

#include <cstdint>
#include <vector>

#include "graph/inward_arcs.hpp"
#include "graph/label_heap.hpp"

namespace spadework::graph {

/// A root of the problem that lies in the ball.
struct BallRoot {
    std::uint32_t vertex = 0;  ///< Number in the ball.
    std::uint32_t option = 0;
};

/// All that lies outside the ball counts as one vertex from which every root is reached free of (potential-reduced)
/// charge, so that a distance found in the ball is never too long.
struct DemandBall {
    std::vector<std::uint32_t>
        spots;  ///< Its vertices in the order of the distance from the demand, whose vertex is the first.
    std::vector<BallRoot> roots;  ///< At different vertices.
    bool all_roots = true;        ///< No root of the problem lies outside.
    double offset = 0.0;          ///< Potential of the demand's vertex: what to add to a reduced distance.

    [[nodiscard]] std::uint32_t outside() const { return static_cast<std::uint32_t>(spots.size()); }
};

/// A price that a demand pays on an arc, or on both arcs of an edge where directions share prices. `Real` is float
/// where memory matters more than the last digits.
template <class Real>
struct HeldPrice {
    std::uint32_t place = kNoArc;  ///< Among the inward arcs; none when the slot is free.
    Real price = 0;
};
template <class Real>
using HeldPrices = std::vector<HeldPrice<Real>>;

/// One demand's prices laid out for all places; one for each thread.
template <class Real>
class PriceField {
public:
    PriceField(const InwardArcs& arcs, bool shared_by_directions)
        : arcs_(&arcs), shared_(shared_by_directions), price_(arcs.at.size(), 0) {}

    [[nodiscard]] Real at(std::uint32_t place) const { return price_[place]; }
    void lay(const HeldPrices<Real>& held) {
        for (const HeldPrice<Real>& one : held)
            set(one.place, one.price);
    }
    void clear(const HeldPrices<Real>& held) {
        for (const HeldPrice<Real>& one : held)
            set(one.place, 0);
    }

private:
    void set(std::uint32_t place, Real price) {
        if (place == kNoArc) return;
        price_[place] = price;
        if (shared_) price_[arcs_->place_of[arcs_->arc[place] ^ 1]] = price;
    }

    const InwardArcs* arcs_;
    bool shared_;
    std::vector<Real> price_;
};

/// How far a ball goes.
struct BallExtent {
    double radius = 0.0;       ///< Vertices at most this far from the demand are in it, ...
    double price_share = 1.0;  ///< ... where distance counts this share of the prices.
};

/// Builds balls for one network; one for each thread.
template <class Real>
class BallBuilder {
public:
    BallBuilder(const SearchNetwork& network, const InwardArcs& arcs);

    /// A ball for the demand around its prices. Prices on arcs that do not lead into it are let go.
    DemandBall build(std::size_t demand, const std::vector<PathLength>& to_root,
                     const std::vector<std::uint32_t>& root_options, HeldPrices<Real>& held, BallExtent extent);

private:
    void settle_vertices(DemandBall& ball, std::uint32_t start, const PathRate& rate, BallExtent extent);
    [[nodiscard]] bool leads_into_ball(std::uint32_t place) const;

    const SearchNetwork& network_;
    const InwardArcs& arcs_;
    PriceField<Real> prices_;
    std::vector<double> label_;
    std::vector<std::uint32_t> number_;
    std::vector<std::uint32_t> met_;
    LabelHeap<double> queue_;
};

}  // namespace spadework::graph
