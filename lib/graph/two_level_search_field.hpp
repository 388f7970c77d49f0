#pragma once

// How one demand looks for its cheapest way under prices, in floating point: this steers, it proves nothing.
//
// A demand's way has three parts. From the source to a fork it pays prices only: the trench must lead there, the feeder
// itself is in the site's figures. At the fork an excursion leads outwards to the site; there the demand's own cable
// runs, so prices and service charge are paid. From the fork on to the demand again both are paid. A demand served by
// the source pays prices and its direct charge all the way.
//
// What the trench to every vertex costs the demand is worked out first. What is left is then steered by it, and by what
// ways out to sites cost without prices, and looks at few vertices around the demand.

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "graph/label_heap.hpp"
#include "graph/two_level_relaxation.hpp"
#include "graph/two_level_trench_prices.hpp"

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
        std::vector<double> cost;    ///< By vertex; infinite where there is none.
        std::vector<Purse> by;       ///< By vertex: the arc outwards, or the site's purse.
        std::vector<VertexId> next;  ///< By vertex: where that arc leads; -1 at a site.
    };

    SearchField(const Relaxation& relaxation, const pair_routes::Network& network);

    [[nodiscard]] const Relaxation& relaxation() const { return relaxation_; }
    [[nodiscard]] std::span<const Neighbour> neighbours(VertexId v) const {
        return {neighbours_.data() + first_[v], first_[static_cast<std::size_t>(v) + 1] - first_[v]};
    }
    [[nodiscard]] VertexId source() const { return source_; }
    [[nodiscard]] VertexId vertex_count() const { return static_cast<VertexId>(first_.size() - 1); }

    /// By vertex: length and passage on the shortest way from the source.
    [[nodiscard]] double length_left(VertexId v) const { return length_left_[v]; }
    [[nodiscard]] double passage_left(VertexId v) const { return passage_left_[v]; }

    /// Sites at the vertex.
    [[nodiscard]] std::span<const std::int32_t> sites_at(VertexId v) const {
        return {sites_.data() + first_site_at_[v], first_site_at_[static_cast<std::size_t>(v) + 1] - first_site_at_[v]};
    }
    [[nodiscard]] const pair_routes::Network& network() const { return network_; }
    [[nodiscard]] Purse purse_count() const { return first_site_ + static_cast<Purse>(relaxation_.sites.size()); }
    [[nodiscard]] Purse first_site() const { return first_site_; }
    [[nodiscard]] const Excursions& excursions_of(const RelaxedDemand& demand) const;

private:
    void list_sites();
    [[nodiscard]] Excursions measured(const RelaxedDemand& demand) const;

    const Relaxation& relaxation_;
    const pair_routes::Network& network_;
    std::vector<std::uint32_t> first_;  ///< By vertex: its first neighbour.
    std::vector<Neighbour> neighbours_;
    std::vector<double> length_left_;
    std::vector<double> passage_left_;
    std::vector<std::uint32_t> first_site_at_;  ///< By vertex: where those at it begin in `sites_`.
    std::vector<std::int32_t> sites_;
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
    [[nodiscard]] double search(const RelaxedDemand& demand, const float* prices);
    void expand_served(VertexId here, const RelaxedDemand& demand, const float* prices);
    void expand_excursion(VertexId here, const RelaxedDemand& demand, const float* prices);
    void expand_direct(VertexId here, const RelaxedDemand& demand, const float* prices);
    void offer_sites(VertexId here, const RelaxedDemand& demand, const float* prices);
    [[nodiscard]] bool free_way_out(VertexId v, const float* prices);
    void meet(std::int32_t node, double label, double left, std::int32_t next, Purse by);
    [[nodiscard]] double left_of_direct(VertexId v, const RelaxedDemand& demand) const;
    void trace();

    /// What is known of a vertex's way out without prices.
    enum class WayOut : char { unknown, free, dear };

    const SearchField& field_;
    const SearchField::Excursions* free_ = nullptr;
    std::int32_t vertices_ = 0;
    double most_ = 0.0;  ///< Nothing dearer is followed.
    TrenchPrices<float, double> trench_;
    std::vector<WayOut> way_out_;
    std::vector<VertexId> known_;   ///< Vertices whose way out is known to be free or dear.
    std::vector<VertexId> walked_;  ///< Scratch space.
    std::vector<double> label_;
    std::vector<std::int32_t> next_;
    std::vector<Purse> by_;
    std::vector<std::int32_t> met_;
    LabelHeap<double> queue_;
    double best_ = 0.0;            ///< What the cheapest whole way met so far costs; ...
    std::int32_t best_node_ = -1;  ///< ... the node where its search ended, ...
    Purse best_site_ = 0;          ///< ... and the site there, where it is not the one its free way leads to.
};

}  // namespace spadework::graph::two_level
