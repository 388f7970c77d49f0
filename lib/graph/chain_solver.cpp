#include "graph/chain_solver.hpp"

#include <algorithm>

#include "graph/chain_bound.hpp"
#include "graph/chain_search.hpp"

namespace spadework::graph {

namespace {

constexpr int kShakesBefore = 4;
constexpr int kScatters = 16;
constexpr int kShakesAfter = 8;
constexpr double kFirstShare = 0.25;  ///< Of the time allowed, for plans before the bound.
constexpr double kBoundShare = 0.5;   ///< For the bound.

/// A first plan from trees the search itself joins.
std::optional<chains::Layout> first_layout(chains::Search& search) {
    auto layout = search.first();
    if (!layout) return std::nullopt;
    *layout = search.loosened(*layout);
    search.shake(*layout, kShakesBefore);
    return layout;
}

/// Starts again from the trees the bound came upon, and shakes the best.
void improve_from(const std::vector<std::vector<EdgeId>>& trees, chains::Search& search, chains::Layout& layout) {
    for (const std::vector<EdgeId>& tree : trees) {
        chains::Layout other = search.loosened(search.descend(tree, {}));
        if (other.cost < layout.cost) layout = std::move(other);
    }
    search.scatter(layout, kScatters);
    search.shake(layout, kShakesAfter);
}

void tell(const SolveLimits& limits, const ChainSolution& solution) {
    if (limits.progress != nullptr) limits.progress->improved(solution.plan->value, solution.bound);
}

}  // namespace

ChainSolution solve(const ChainProblem& problem, const SolveLimits& limits) {
    ChainSolution solution;
    if (!chains::well_formed(problem)) return solution;
    const pair_routes::StopRule all_time(limits.seconds, limits.progress);
    const pair_routes::StopRule first_time(limits.seconds * kFirstShare, limits.progress);
    chains::Search first_search(problem, first_time, limits.seed);
    auto layout = first_layout(first_search);
    if (!layout) return solution;
    solution.plan = plan_from(problem, first_search.network(), *layout);
    if (!solution.plan) return solution;
    solution.bound = chains::least_for_chains(problem);
    tell(limits, solution);

    SolveLimits for_bound = limits;
    for_bound.seconds = std::min(limits.seconds * kBoundShare, all_time.seconds_left());
    chains::ChainBound bound{solution.bound, {}};
    if (limits.target_gap < 1.0) bound = chains::lower_bound(problem, *solution.plan, for_bound);
    chains::Search search(problem, all_time, limits.seed);
    improve_from(bound.trees, search, *layout);
    if (auto plan = plan_from(problem, search.network(), *layout); plan && plan->value < solution.plan->value) {
        solution.plan = std::move(plan);
    }
    solution.bound = bound.cost;
    tell(limits, solution);
    solution.interrupted = all_time.reached();
    return solution;
}

}  // namespace spadework::graph
