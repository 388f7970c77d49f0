#pragma once

// Prices that prove more and more of a ChainProblem's cost: projected subgradient on the dual that
// chain_certificate.hpp states, in floating point.

#include <functional>
#include <limits>
#include <memory>
#include <vector>

#include "graph/chain_entries.hpp"
#include "graph/chain_forks.hpp"
#include "graph/chain_routes.hpp"
#include "graph/kept_ways.hpp"
#include "graph/progress.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph::chains {

/// What a stop pays on an edge of the fork network, for one use of three.
struct SlotPrice {
    enum Use : std::int32_t { kForwards, kBackwards, kArrival };

    std::int32_t slot = 0;  ///< 3 * edge + use: on the stop's way from the source, or by the hop that arrives there; of
                            ///< rings on its two ways (kForwards), or by the hop that closes a ring from there.
    double price = 0.0;
    double flow = 0.0;  ///< Average use, 0 to 1 (arrivals may exceed it).
};

/// One point of the dual.
struct DualPoint {
    std::vector<double> hop_charge;            ///< By edge: what every hop pays, up to the edge's charge.
    std::vector<std::vector<SlotPrice>> paid;  ///< By stop; of rings then by stop for closing hops.
    std::vector<double> visit;                 ///< By stop: what a visit earns.
    std::vector<double> entry;                 ///< By group of stops: what a hop earns that enters it.
    std::vector<double> ways_charge;           ///< By edge, of rings: for the ways of as many stops as a ring holds.
};

/// How the search steps. Found by trial on generated site maps.
struct ChainStepRule {
    double first_weight = 0.3;           ///< What a pass's ways and hops count in the averaged flows at first, ...
    double least_weight = 0.03;          ///< ... at last, ...
    double halved_after = 8.0;           ///< ... and half as much as at first after so many passes.
    double start_factor = 0.5;           ///< Polyak step factor.
    double growth = 1.01;                ///< Of the factor while the bound rises ...
    std::size_t patience = 3;            ///< ... from one pass to the one so many after it, ...
    double decay = 0.6;                  ///< ... and where it falls.
    double visit_scale = 1.0;            ///< Steps of visits' earnings against those of prices, squared.
    int visit_rounds = 3;                ///< Route sets found in a pass, each for its own earnings of visits.
    double visit_share = 0.3;            ///< Of the step factor, for the steps between them.
    double start_seconds = 10.0;         ///< At most, for prices to start from.
    const Progress* progress = nullptr;  ///< Asked meanwhile whether to stop. May be null.
    double memory = 0.3;  ///< Weight of the last step in what is known of the share that opening costs let through.
};

ChainStepRule step_rule_for(std::size_t stops);

/// How many passes pay on a network.
int passes_worth(const ForkNetwork& network);

/// Finds the cheapest two ways from the source to a stop that share nothing but bridges. `price` has three slots an
/// edge; those of kForwards count, in either direction and once on a bridge, and `a_pass`, by edge, for every pass.
/// Gives back the edges, bridges twice, and the sum. What passes cost is told before the searches of a pass begin.
class TwoWaysFinder {
public:
    virtual ~TwoWaysFinder() = default;
    virtual void charge_passes(const std::vector<double>& a_pass) = 0;
    virtual double find(std::size_t stop, const std::vector<double>& price, const std::vector<double>& a_pass,
                        std::vector<std::int32_t>& edges) = 0;
};
using TwoWaysMaker = std::function<std::unique_ptr<TwoWaysFinder>()>;

/// A pass is `evaluate`, then `step`. A step goes along the averaged flows and back onto what edges may pay; its length
/// is Polyak's for the part of the direction that gets through (see price_search.hpp).
class ChainPrices {
public:
    /// Every stop can be reached. With searches for two ways (one for each worker, which `two_ways` makes) these are
    /// prices of rings, by the claim of ring_certificate.hpp.
    ChainPrices(const ChainProblem& problem, const ForkNetwork& network, WorkerTeam& team, ChainStepRule rule,
                const TwoWaysMaker& two_ways = {});

    /// The bound at the present point, after a few steps of what visits earn that aim at `target`; keeps the point when
    /// it is the best so far.
    double evaluate(double target);

    /// Moves the point, aiming at a bound of `target`.
    void step(double target);

    [[nodiscard]] double best_bound() const { return best_bound_; }
    [[nodiscard]] const DualPoint& best_point() const { return best_; }
    [[nodiscard]] const std::vector<std::vector<std::int32_t>>& neighbours() const { return neighbours_; }
    [[nodiscard]] const EntryGroups& groups() const { return groups_; }
    [[nodiscard]] double factor() const { return factor_; }

    /// For each edge of the fork network how much of it the averaged ways from the source use, 0 to 1.
    [[nodiscard]] std::vector<double> edge_use() const;

private:
    struct Scratch {
        std::vector<double> price;        ///< By slot.
        std::vector<std::int32_t> entry;  ///< By slot: place in the stop's list, or -1.
        std::vector<double> toll;         ///< By edge: what a hop pays.
        KeptWays ways;
        std::unique_ptr<TwoWaysFinder> two_ways;  ///< Of rings only.
    };

    void start_prices();
    void choose_neighbours(std::int32_t longest_chain);
    void find_ways(std::size_t way, Scratch& scratch);
    void find_way_from_source(std::size_t stop, Scratch& scratch);
    void find_two_ways(std::size_t stop, Scratch& scratch);
    void find_hops(std::size_t stop, Scratch& scratch);
    void find_closing(std::size_t stop, Scratch& scratch);
    void spread_from(VertexId target, VertexId enough, std::size_t way, Scratch& scratch);
    void count_flows(std::size_t way, Scratch& scratch);
    void count_hops(std::size_t stop, Scratch& scratch);
    void count_ways();
    void count_entries();
    void count_hop(std::size_t way, VertexId from, VertexId to, double use, Scratch& scratch);
    void add_flow(std::size_t way, std::int32_t slot, double flow, Scratch& scratch);
    [[nodiscard]] double newest() const;
    double price_visits(double target);
    double find_routes(double weight);
    void adapt_factor();
    void list_by_edge();
    double project(std::size_t edge, double length);
    [[nodiscard]] double squares() const;

    const ForkNetwork& network_;
    std::vector<EdgeEnds> ends_;
    WorkerTeam& team_;
    ChainStepRule rule_;
    int steps_ = 0;
    double a_chain_;
    double longest_;
    bool closed_;
    std::vector<std::vector<std::int32_t>> neighbours_;
    EntryGroups groups_;
    std::vector<RouteTable> routes_;  ///< One, made once the neighbours are known.
    std::vector<double> scale_;       ///< By edge: how far its prices step for the same flow.
    DualPoint point_;
    DualPoint best_;
    std::vector<double> visit_flow_;       ///< By stop: averaged visits missing.
    std::vector<double> visits_missing_;   ///< By stop: in the route set found last.
    std::vector<double> entry_flow_;       ///< By group: averaged hops into it missing.
    std::vector<double> entries_missing_;  ///< By group: in the route set found last.
    std::vector<double> hop_flow_;         ///< Like hop costs: averaged over passes.
    std::vector<Scratch> scratch_;
    std::vector<double> distance_;                ///< By stop, from the source.
    std::vector<std::vector<std::int32_t>> way_;  ///< By stop: the slots of its way, or two ways, from the source.
    std::vector<std::vector<ArcId>> source_via_;  ///< By stop and vertex: arc of the way from the source, of chains.
    std::vector<std::vector<ArcId>> via_;  ///< By stop and vertex: arc of the hop, from the stop; then of rings from
                                           ///< the source.
    std::vector<double> hop_costs_;        ///< See RouteTable.
    std::vector<double> visit_costs_;      ///< Hop costs with the visits' earnings taken off.
    std::vector<double> hop_use_;        ///< Like hop costs: how often the pass's route sets take the hop, on average.
    std::vector<double> a_pass_;         ///< By edge, of rings only: what a way of a stop pays for passing.
    std::vector<double> ways_flow_;      ///< By edge: averaged passes of ways, for each stop that a ring holds.
    std::vector<double> closing_costs_;  ///< By stop, of rings only.
    std::vector<double> closing_use_;    ///< By stop: how often the pass's route sets end there, on average.
    std::vector<std::size_t> first_of_edge_;
    std::vector<SlotPrice*> by_edge_;
    std::vector<double> moved_;
    double bound_ = 0.0;
    double best_bound_ = -std::numeric_limits<double>::infinity();
    double factor_;
    double move_share_ = 1.0;
    std::vector<double> recent_bounds_;
    bool first_pass_ = true;
};

}  // namespace spadework::graph::chains
