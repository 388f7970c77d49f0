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
// serves U units: the site, and the cheapest feeder that holds them over the shortest way from the source. ask_i >= 0
// is what i asks of a unit, moved from the second sum to the first: share_i * m_d <= ask_i * u_d for every demand. A
// demand that may be served directly may also take the source, and then its units are in no feeder.

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
    FeederTable(const TwoLevelProblem& problem, const Relaxation& relaxation);

    [[nodiscard]] std::size_t site_count() const { return cost_.size(); }
    [[nodiscard]] std::int64_t steps() const { return steps_; }  ///< All units, in steps.
    [[nodiscard]] std::int64_t units_a_step() const { return units_a_step_; }
    [[nodiscard]] Cost cost(std::size_t site, std::int64_t steps) const { return cost_[site][steps]; }

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
    [[nodiscard]] Split each_by_itself(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                       std::span<const Range> ranges) const;
    [[nodiscard]] Split shared_out(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                   std::span<const Range> ranges, bool all_units) const;

    std::int64_t units_a_step_ = 1;
    std::int64_t steps_ = 0;
    std::vector<std::vector<Cost>> cost_;  ///< By site, by steps; the largest Cost where no size holds them.
};

}  // namespace spadework::graph::two_level
