#pragma once

// Best plan and proven lower bound for a TwoLevelProblem.

#include <optional>
#include <vector>

#include "graph/shared_cost_solver.hpp"
#include "graph/two_level_problem.hpp"

namespace spadework::graph {

/// What proves a bound set of sites by set of sites, where all demands rank all ways of being served alike; see
/// two_level_set_costs.hpp for what one set of prices and asks proves of one set of open sites.
///
/// Every set of as many sites as may be open is bounded: by the entries in `sets` that name exactly its sites, each for
/// the plans in which every site serves units within its range (together the entries leave out no way of sharing out
/// the units in multiples of what divides all demands' units), or, when none does, by the first prices and `asks`. The
/// least of all these is the bound.
struct TwoLevelCertificate {
    struct Units {
        std::int64_t least = 0;
        std::int64_t most = 0;
        friend auto operator<=>(const Units&, const Units&) = default;
    };
    struct SitesProof {
        std::vector<std::int32_t> sites;  ///< Ascending indices into the problem's sites.
        std::vector<Units> units;         ///< That each of them serves.
        std::vector<Cost> asks;           ///< What each asks of a unit, in parts.
        std::int32_t prices = 0;          ///< Index into `prices`.
        friend auto operator<=>(const SitesProof&, const SitesProof&) = default;
    };
    std::int64_t parts = 1;            ///< How many parts make one cost unit.
    std::vector<EdgePriceSet> prices;  ///< In each, by demand; on each arc they sum to its edge's opening cost at most.
    std::vector<Cost> asks;            ///< By site of the problem: what it asks of a unit in sets not listed, in parts.
    std::vector<SitesProof> sets;      ///< Ascending.
};

struct TwoLevelSolution {
    std::optional<TwoLevelPlan> plan;  ///< Best over all numbers of sites. Empty: not possible.
    Cost bound = 0;                    ///< No plan costs less.
    std::vector<std::optional<TwoLevelPlan>>
        best_by_count;  ///< Best plan found with exactly that many open sites; index 0 is none.
    /// Other plans found that cost little more than the best, cheapest first: where a price is not quite what a plan
    /// will cost in the end, one of them may be the better.
    std::vector<TwoLevelPlan> near_best;
    std::optional<TwoLevelCertificate> certificate;  ///< Of `bound`, where it was proved set by set.
    bool interrupted = false;
    std::optional<SharedCostCertificate> single;  ///< What proves the bound where the problem has one site only.
};

/// Units a feeder must hold to serve demands of so many units: served + spare_units + ceil(spare_share * served).
std::int64_t units_needed(const TwoLevelProblem& problem, std::int64_t served);

/// Empty plan and bound 0 where no plan exists or the figures may not be worked on (an unknown vertex, a negative
/// figure, sizes that do not ascend, or amounts so large that a plan might cost 2^58).
///
/// Where starts are given, plans with as many sites as one of them are looked for from there alone.
TwoLevelSolution solve(const TwoLevelProblem& problem, const SolveLimits& limits,
                       const std::vector<TwoLevelStart>& starts = {});

/// The edges and sites of a plan.
TwoLevelStart start_from(const TwoLevelPlan& plan);

/// Exact cost of a plan, or nothing when it is not a plan for the problem.
std::optional<Cost> cost_of(const TwoLevelProblem& problem, const TwoLevelPlan& plan);

}  // namespace spadework::graph
