#pragma once

// Best plan and proven lower bound for a SharedCostProblem.

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "graph/progress.hpp"
#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// How long and how hard to work. The answer does not depend on `threads`; it depends on `seconds` only where that
/// limit cuts the work short.
struct SolveLimits {
    double seconds = 10.0;    ///< Wall-clock limit; the best plan so far comes back with its bound.
    double target_gap = 0.0;  ///< Stop when (value - bound) / value is at or below this.
    int threads = 1;
    std::uint64_t seed = 1;
    Progress* progress = nullptr;  ///< Told of every improvement and asked whether to stop. May be null.
    /// How often a problem with a fixed root may be split in two where prices leave a gap: plans that use an edge, and
    /// plans that do not.
    int most_splits = 0;
    double gap_unsplit = 0.0;  ///< A gap of no more, as target_gap counts it, is not worth a split.
    Cost bound_wanted = std::numeric_limits<Cost>::max();  ///< The work ends once the bound is so high.
};

/// Integer prices that prove a lower bound. For each demand, `prices` holds what it contributes to the opening of each
/// edge, as (edge, direction, price) with price > 0. They prove the bound because the contributions to an edge sum to
/// no more than its opening cost, so that for every root r
///   cost_r + sum over demands of the shortest distance under (weight*length + multiplicity*passage + price)
/// is at most the cost of every plan rooted at r (weak duality of the multicommodity flow model). Balakrishnan,
/// Magnanti and Wong, "A dual-ascent procedure for large-scale uncapacitated network design", Operations Research 37
/// (1989).
///
/// How contributions sum: demands whose weights and multiplicities are in one proportion measure every path alike, so
/// some best plan gives them paths that make up one tree, and no two of them use an edge in opposite directions (Vasko
/// and others 2002). So, edge by edge, the sum over proportions of the larger of the two directions' sums must not pass
/// the opening cost. Where every passage or every length is zero there is one proportion only.
struct EdgePrice {
    EdgeId edge = 0;
    Cost price = 0;          ///< In parts of a cost unit, see SharedCostCertificate::parts.
    bool backwards = false;  ///< For paths that run from the edge's head to its tail.
};
using EdgePriceSet = std::vector<std::vector<EdgePrice>>;  ///< One list for each demand.

/// Plans are split by whether they use an edge, and those again, until prices prove enough of each part. Plans that use
/// an edge pay its opening cost whatever else they do: it counts for all of them, and is 0 for prices. Plans that do
/// not use an edge may do without it: prices are those of the network without it. (Land and Doig, "An automatic method
/// of solving discrete programming problems", Econometrica 28, 1960.)
struct EdgeChoice {
    EdgeId edge = 0;
    bool used = false;
};
struct PartProof {
    std::vector<EdgeChoice> choices;  ///< Outermost first.
    EdgePriceSet prices;
    std::int64_t parts = 1;  ///< As below.
};

struct SharedCostCertificate {
    EdgePriceSet prices;
    std::vector<EdgePriceSet> more_prices;  ///< Each set alone proves a bound for every root; the largest counts.
    std::int64_t parts = 1;                 ///< How many parts of price make one cost unit. At least 1.
    /// Parts that are all plans together, in the order of the splits, those that use an edge before those that do not.
    /// None where prices alone prove the bound. The least that is proved of a part counts where it is more.
    std::vector<PartProof> splits;
};

struct SharedCostSolution {
    std::optional<SharedCostPlan> plan;  ///< Empty when some demand cannot be reached from any root.
    /// No plan costs less. Valid in exact integer arithmetic. Where paths cost nothing and the root is fixed (a Steiner
    /// tree problem) it rests on reductions and branching too.
    Cost bound = 0;
    /// Prices that prove `bound`, or as much of it as prices alone prove: see bound_proved.
    SharedCostCertificate certificate;
    std::vector<Cost> root_bounds;         ///< For each root option, no plan with that root costs less.
    std::vector<std::int32_t> roots_left;  ///< Root options whose bound is not above the plan's value.
    bool optimal = false;                  ///< plan->value == bound.
    bool interrupted = false;              ///< Time ran out or progress asked to stop before the target gap.
};

SharedCostSolution solve(const SharedCostProblem& problem, const SolveLimits& limits);

/// A good plan quickly (construction and local search, milliseconds), for callers that try many variants. `bound` is 0.
SharedCostSolution sketch(const SharedCostProblem& problem, const SolveLimits& limits);

/// Bound that the certificate proves for each root, by Dijkstra in integers. Simple code, independent of the solver.
/// The sum of distances is raised to the next multiple of the greatest common divisor of all opening costs, weight *
/// length and multiplicity * passage products, because every plan's cost less its root's is such a multiple. A root
/// from which some demand cannot be reached has the largest Cost. Returns nothing when the prices break a rule
/// (negative, unknown edge, sum above an opening cost, not one list a demand), the splits do not cover all plans, or
/// the problem is not well formed.
std::optional<std::vector<Cost>> bound_proved(const SharedCostProblem& problem,
                                              const SharedCostCertificate& certificate);

/// Exact cost of a plan, or nothing when it is not a plan for the problem (a path that does not join root to demand).
std::optional<Cost> cost_of(const SharedCostProblem& problem, const SharedCostPlan& plan);

}  // namespace spadework::graph
