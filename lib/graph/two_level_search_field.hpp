#pragma once

// How one demand looks for its cheapest way under prices, in floating point: this steers, it proves nothing.
//
// A demand's way has three parts. From the source to a fork it pays prices only: the trench must lead there, the feeder
// itself is in the site's figures. At the fork an excursion leads outwards to the site; there the demand's own cable
// runs, so prices and service charge are paid. From the fork on to the demand again both are paid. A demand served by
// the source pays prices and its direct charge all the way.

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "graph/label_heap.hpp"
#include "graph/two_level_relaxation.hpp"

namespace spadework::graph::two_level {

/// A purse is an arc (2 * edge for tail to head, 2 * edge + 1 for head to tail), or a site behind all arcs.
using Purse = std::uint32_t;

/// The network as the searches read it.
class SearchField {
public:
    struct Neighbour {
        VertexId to = 0;
        Purse inwards = 0;   ///< Arc from the neighbour to here.
        Purse outwards = 0;  ///< Arc from here to the neighbour.
        double length = 0.0;
        double passage = 0.0;
    };

    /// The cheapest way out to a site from every vertex, as a demand pays it where there are no prices.
    struct Excursions {
        pair_routes::Charge service;
        std::int64_t units = 0;
        std::vector<double> cost;                ///< By vertex; infinite where there is none.
        std::vector<Purse> by;                   ///< By vertex: the arc outwards, or the site's purse.
        std::vector<VertexId> next;              ///< By vertex: where that arc leads; -1 at a site.
        std::vector<std::int32_t> first_before;  ///< By vertex: where those whose next it is begin in `before`.
        std::vector<VertexId> before;
    };

    SearchField(const Relaxation& relaxation, const pair_routes::Network& network);

    [[nodiscard]] const Relaxation& relaxation() const { return relaxation_; }
    [[nodiscard]] std::span<const Neighbour> neighbours(VertexId v) const {
        return {neighbours_.data() + first_[v], first_[static_cast<std::size_t>(v) + 1] - first_[v]};
    }
    [[nodiscard]] VertexId source() const { return source_; }
    [[nodiscard]] VertexId vertex_count() const { return static_cast<VertexId>(first_.size() - 1); }

    /// By vertex, on the shortest way from the source: length, passage, and what a unit adds to a feeder at least.
    [[nodiscard]] double length_left(VertexId v) const { return length_left_[v]; }
    [[nodiscard]] double passage_left(VertexId v) const { return passage_left_[v]; }
    [[nodiscard]] double feeder_left(VertexId v) const { return feeder_left_[v]; }
    [[nodiscard]] Purse purse_count() const { return first_site_ + static_cast<Purse>(relaxation_.sites.size()); }
    [[nodiscard]] Purse first_site() const { return first_site_; }
    [[nodiscard]] const Excursions& excursions_of(const RelaxedDemand& demand) const;

private:
    [[nodiscard]] Excursions measured(const RelaxedDemand& demand) const;

    const Relaxation& relaxation_;
    std::vector<std::uint32_t> first_;  ///< By vertex: its first neighbour.
    std::vector<Neighbour> neighbours_;
    std::vector<double> length_left_;
    std::vector<double> passage_left_;
    std::vector<double> feeder_left_;
    VertexId source_ = 0;
    Purse first_site_ = 0;
    std::vector<Excursions> excursions_;  ///< One for each kind of demand.
};

/// Scratch space of a search, one for each thread.
class DemandSearch {
public:
    explicit DemandSearch(const SearchField& field);

    /// What the demand's cheapest way costs, in parts; `prices` has one entry for each purse. Infinite where there is
    /// no way. The purses on the way are then in `used`. `most` is what some way costs, if that is known: dearer ones
    /// are not followed.
    double find(const RelaxedDemand& demand, const float* prices,
                double most = std::numeric_limits<double>::infinity());

    std::vector<Purse> used;

private:
    void forget_dear_excursions(const SearchField::Excursions& free, const float* prices);
    void find_excursions(const RelaxedDemand& demand, const float* prices);
    [[nodiscard]] double search(const RelaxedDemand& demand, const float* prices);
    void expand(std::int32_t node, const RelaxedDemand& demand, const float* prices);
    template <class OnStep, class Left>
    void expand_within(std::int32_t layer, VertexId here, const float* prices, OnStep on_step, Left left);
    void meet(std::int32_t node, double label, double left, std::int32_t next, Purse by);
    [[nodiscard]] double left_of_direct(VertexId v, const RelaxedDemand& demand) const;
    void trace(std::int32_t node);

    const SearchField& field_;
    std::int32_t vertices_;
    double pull_ = 0.0;   ///< A trace of charge on the way to the fork, so that ties lead straight to the source.
    double steer_ = 0.0;  ///< How much of what a unit adds to a feeder may steer the search, times the units.
    double most_ = 0.0;   ///< Nothing dearer is followed.
    std::vector<VertexId> dear_;       ///< Vertices whose way out without prices has a price on it.
    std::vector<double> excursion_;    ///< By vertex: cheapest way out to a site and its price.
    std::vector<Purse> excursion_by_;  ///< By vertex: the arc outwards, or the site's purse.
    std::vector<VertexId> excursion_next_;
    std::vector<double> label_;
    std::vector<std::int32_t> next_;
    std::vector<Purse> by_;
    std::vector<std::int32_t> met_;
    LabelHeap<double> queue_;
    LabelHeap<double> excursion_queue_;
};

}  // namespace spadework::graph::two_level
