#pragma once

// What a given set of open sites costs at least, for given prices.
//
// Where all demands rank all ways of being served alike (two_level_even.hpp), a plan with exactly the sites of S open
// costs at least
//
//   sum over demands d of the least, over sites i in S, of  c_d(i) + m_d * share_i
//   + the least, over all ways of splitting the units among the sites of S, of the sum of  G_i(U_i) - ask_i * U_i .
//
// c_d(i) is d's cheapest priced way when i serves it: prices from the source to a fork; prices and service charge from
// the fork outwards to i; prices and service charge from the fork outwards to d. The prices on an arc sum to no more
// than its edge opens for. m_d is d's charge as a multiple of the common one. G_i(U) is what site i costs when it
// serves U units: the site, and the cheapest feeder that holds them over its cheapest way from the source. ask_i >= 0
// is what i asks of a unit, moved from the second sum to the first: share_i * m_d <= ask_i * u_d for every demand. A
// demand that may be served directly may also take the source, and then its units are in no feeder.
//
// On its way a feeder pays a due for every edge, beside its own charge: an equal part, among as many as S has sites, of
// what demands leave unspent there. The unspent is the edge's opening cost less the dearer of its two arcs, by the
// demands' prices together. Demands are charged along a tree that runs away from the source, so they pay for an edge of
// it in one direction only, and nothing for other edges; each feeder passes an edge of its way once. What demands and
// feeders pay for an edge together is thus no more than it opens for, and nothing where the plan does not open it. A
// way's dues are divided as a whole and then rounded down.

#include <cstdint>
#include <span>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/two_level_even.hpp"
#include "graph/two_level_figures.hpp"
#include "graph/two_level_problem.hpp"
#include "graph/two_level_relaxation.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph::two_level {

/// G_i(U) for the sites that can be reached. Units are counted in steps of the greatest number that divides all.
class FeederTable {
public:
    /// No dues are paid to begin with. Problem and network must outlive the table.
    FeederTable(const TwoLevelProblem& problem, const pair_routes::Network& network, const Relaxation& relaxation);

    /// Feeders of the sets with so many sites pay dues from now on, those of others none; `counts` says by number of
    /// sites whether such sets are of interest, `unspent` by edge what demands leave, in parts.
    void pay_dues(const std::vector<Cost>& unspent, const std::vector<char>& counts, WorkerTeam& team);

    [[nodiscard]] std::size_t most_sites() const { return cost_.size() - 1; }  ///< Of any set.
    [[nodiscard]] std::int64_t steps() const { return steps_; }                ///< All units, in steps.
    [[nodiscard]] std::int64_t units_a_step() const { return units_a_step_; }

    /// What the site costs as one of `count`.
    [[nodiscard]] Cost cost(std::size_t count, std::size_t site, std::int64_t steps) const {
        return cost_[count][site][steps];
    }
    [[nodiscard]] Cost cost_without_dues(std::size_t site, std::int64_t steps) const { return bare_[site][steps]; }

    /// The way of the feeder that costs so much; none where it pays no dues.
    [[nodiscard]] std::vector<EdgeId> way(std::size_t count, std::size_t site, std::int64_t steps) const;

    /// Least and most steps of one site.
    struct Range {
        std::int64_t least = 0;
        std::int64_t most = 0;
    };

    /// The least of the sum of G_i - ask_i * U_i, and the steps each site takes then. `asks` and `ranges` are by
    /// position in `set`.
    struct Split {
        Cost cost = 0;
        std::vector<std::int64_t> steps;
    };
    [[nodiscard]] Split cheapest_split(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                       std::span<const Range> ranges, bool all_units) const;

private:
    /// Cheapest ways from the source of the feeders of one kind; empty where none pay dues.
    struct Ways {
        std::vector<Cost> label;   ///< By vertex: charges and dues, times the number of sites.
        std::vector<EdgeId> last;  ///< By vertex: the last edge; -1 where there is none.
    };

    void list_kinds();
    [[nodiscard]] Ways ways_of(pair_routes::Charge charge, const std::vector<Cost>& unspent, Cost count) const;
    template <class WayCost>
    [[nodiscard]] std::vector<Cost> costs_by_steps(std::size_t site, WayCost way_cost) const;
    [[nodiscard]] Split each_by_itself(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                       std::span<const Range> ranges) const;
    [[nodiscard]] Split shared_out(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                   std::span<const Range> ranges, bool all_units) const;

    const TwoLevelProblem& problem_;
    const pair_routes::Network& network_;
    Cost parts_ = 1;
    std::vector<Feeder> feeders_;
    std::vector<pair_routes::Charge> kinds_;  ///< Of feeders that charge alike for ways.
    std::vector<std::size_t> kind_of_;        ///< By feeder.
    std::int64_t units_a_step_ = 1;
    std::int64_t steps_ = 0;
    std::vector<VertexId> at_;                   ///< By site.
    std::vector<std::vector<Cost>> beside_way_;  ///< By site, by feeder: both without the way, in parts.
    std::vector<std::vector<Cost>> bare_;        ///< By site, by steps; the largest Cost where no size holds them.
    std::vector<std::vector<std::vector<Cost>>> cost_;  ///< The same, by number of sites first.
    std::vector<std::vector<Ways>> ways_;               ///< By number of sites, by kind.
};

}  // namespace spadework::graph::two_level
