#pragma once

// Plans for a RingProblem: stops put into rings where they cost least, taken out and put back elsewhere, hops led
// another way. Heuristics; no bound is claimed here. Whatever comes out keeps the rule on cuts. Hops beyond the longest
// allowed are charged for, so that they go where that can be done.

#include <algorithm>
#include <cstdint>
#include <optional>
#include <random>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/ring_links.hpp"
#include "graph/ring_shorter_ways.hpp"
#include "graph/ring_two_ways.hpp"

namespace spadework::graph::rings {

/// One ring: hop i leads to stop i, the last one from the last stop back to the source.
struct Round {
    std::vector<std::int32_t> stops;
    std::vector<LinkPath> hops;
    std::vector<char> fresh;  ///< By hop: it has changed since its links were last tried to be closed.

    [[nodiscard]] bool settled() const { return std::find(fresh.begin(), fresh.end(), 1) == fresh.end(); }
};
using Rounds = std::vector<Round>;

/// What rings cost and hold.
struct RingFigures {
    Cost ring_cost = 0;
    std::int32_t longest_ring = 1;
};

class Search {
public:
    Search(const LinkNetwork& network, const RingFigures& figures, const pair_routes::StopRule& stop,
           std::uint64_t seed);

    /// Puts in every stop, from the farthest on always the one nearest to those before it.
    void construct();

    /// Constructs anew where edges that are in use already come cheap, and betters that; keeps it when it is cheaper.
    /// `use` tells for each of the problem's edges how much of its opening counts as paid, 0 to 1.
    void follow(const std::vector<SharedCostEdge>& edges, const std::vector<double>& use);

    /// Whether some hop is longer than allowed.
    [[nodiscard]] bool reaches_too_far() const;

    /// From here on such hops are charged more.
    void insist();

    /// From here on another rule says when to stop.
    void obey(const pair_routes::StopRule& stop) { stop_ = &stop; }

    /// Leads hops another way and closes links while that pays.
    void improve();

    /// Takes stops in a row out of rings near each other and puts them back, so many times, keeping what is better. It
    /// goes on from what is dearer the less readily the fewer times are left (simulated annealing, Kirkpatrick, Gelatt,
    /// Vecchi 1983).
    void shake(int times);

    [[nodiscard]] const Rounds& rounds() const { return rounds_; }
    /// What the rounds cost, charges left out.
    [[nodiscard]] Cost cost() const;

private:
    void start_from(const Rounds& rounds);

    struct Place {
        std::int32_t round = -1;  ///< -1 for a ring of its own.
        std::size_t gap = 0;
        Cost change = 0;
        LinkPath before;
        LinkPath after;
    };

    /// Stops that follow each other in a round.
    struct Row {
        std::size_t round = 0;
        std::size_t first = 0;
        std::size_t count = 0;
    };

    /// A hop over a run of links that others pass too.
    struct Led {
        std::size_t round = 0;
        std::size_t hop = 0;
        VertexId from = 0;  ///< Where the hop begins.
        LinkPath old;
        LinkPath head;        ///< What leads to the run, ...
        LinkPath tail;        ///< ... and on from there.
        VertexId enters = 0;  ///< Where the hop comes into the run.
        VertexId leaves = 0;
    };

    [[nodiscard]] VertexId across(std::int32_t link, VertexId v) const {
        return network_.links[link].tail == v ? network_.links[link].head : network_.links[link].tail;
    }
    [[nodiscard]] VertexId end_before(const Round& round, std::size_t gap) const;
    [[nodiscard]] VertexId end_after(const Round& round, std::size_t gap) const;
    [[nodiscard]] std::int32_t part_of(VertexId v) const { return network_.part[v]; }
    [[nodiscard]] bool keeps_together(std::int32_t stop, const Round& round, std::size_t gap) const;
    [[nodiscard]] Cost apart(std::int32_t row, std::int32_t column) const;
    [[nodiscard]] Cost charge_of(const LinkPath& hop) const {
        return charge_.limits() ? charge_.of(span_of(network_, hop)) : 0;
    }
    [[nodiscard]] Length span_apart(std::int32_t row, std::int32_t column) const;
    void measure_distances();
    void measure_spans();
    void list_bridges();

    void use(const LinkPath& path, int times);
    void ban(const LinkPath& path);
    void allow(const LinkPath& path);
    Cost change_of(const LinkPath& one, const LinkPath& other);

    std::optional<LinkPath> one_way(VertexId from, VertexId to, Cost below = kLargestCost);
    std::optional<ShorterWays::Pair> two_ways(VertexId from, VertexId to_first, VertexId to_second,
                                              Cost below = kLargestCost);
    std::optional<ShorterWays::Pair> by_turns(VertexId from, VertexId to_first, VertexId to_second);
    [[nodiscard]] Cost charge_change(std::int32_t stop, const Round& round, std::size_t gap) const;
    std::vector<Place> near_gaps(std::int32_t stop, const std::vector<Cost>& distance) const;
    [[nodiscard]] Cost saved_on_bridges(std::int32_t stop) const;
    bool price(std::int32_t stop, Place& place, Cost below);
    bool price_alone(std::int32_t stop, Place& place);
    void put_in(std::int32_t stop);
    bool take_out(const Row& row);
    std::vector<std::int32_t> take_out_some();
    bool reroute(std::size_t round, std::size_t hop);
    [[nodiscard]] std::vector<std::int32_t> links_worth_closing() const;
    [[nodiscard]] std::vector<Led> hops_over(std::int32_t link) const;
    void split_at_run(std::int32_t link, std::vector<Led>& hops);
    std::optional<LinkPath> way_for_all(std::int32_t link, const std::vector<Led>& hops, Cost below);
    [[nodiscard]] LinkPath led_by(const Led& led, const LinkPath& way) const;
    bool lead_together(std::int32_t link, std::vector<Led>& hops, Cost below);
    bool close(std::int32_t link);
    void settle_what_was(const Rounds& rounds);
    [[nodiscard]] std::vector<std::int32_t> from_the_farthest() const;
    [[nodiscard]] bool all_settled() const;
    [[nodiscard]] std::vector<std::int32_t> by_distance_from(std::int32_t centre) const;
    [[nodiscard]] std::vector<std::int32_t> stops_at_long_hops() const;
    std::int32_t stop_to_begin_at();
    [[nodiscard]] Row some_in_a_row(std::size_t round, std::size_t at);
    std::vector<Row> rows_to_move();
    bool put_in_all(const std::vector<std::int32_t>& stops, Cost below);

    const LinkNetwork& network_;
    RingFigures figures_;
    const pair_routes::StopRule* stop_;
    WaySearch ways_;
    ShorterWays shorter_;
    std::mt19937_64 random_;
    Rounds rounds_;
    std::vector<std::int64_t> uses_;
    std::vector<Cost> price_;        ///< Of one more cable on each link; negative where the ring at hand may not go.
    Cost cost_ = 0;                  ///< With what hops too long are charged.
    std::vector<LinkPath> bridges_;  ///< By stop: those between it and the source.
    std::vector<Cost> distance_;     ///< Between stops, the source last.
    std::vector<Cost> span_;         ///< The least that hops between them span; empty where no hop need be too long.
    HopCharge charge_;
    std::vector<std::int32_t> led_on_;  ///< By link how many of the hops at hand pass it; all 0 between calls.
    std::vector<Cost> price_for_all_;   ///< By link, of as many cables as hops are led together.
};

}  // namespace spadework::graph::rings
