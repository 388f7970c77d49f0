#include "graph/chain_solver.hpp"

#include <algorithm>
#include <chrono>

#include "graph/chain_bound.hpp"
#include "graph/chain_search.hpp"

namespace spadework::graph {

namespace {

constexpr int kShakes = 12;
constexpr double kSearchShare = 0.4;  ///< Of the time allowed, before the bound.

}  // namespace

ChainSolution solve(const ChainProblem& problem, const SolveLimits& limits) {
    ChainSolution solution;
    if (!chains::well_formed(problem)) return solution;
    const auto start = std::chrono::steady_clock::now();
    const pair_routes::StopRule all_time(limits.seconds, limits.progress);
    const pair_routes::StopRule search_time(limits.seconds * kSearchShare, limits.progress);
    chains::Search search(problem, search_time, limits.seed);
    auto layout = search.first();
    if (!layout) return solution;
    *layout = search.loosened(*layout);
    search.shake(*layout, kShakes);
    solution.plan = plan_from(problem, search.network(), *layout);
    if (!solution.plan) return solution;
    if (limits.progress != nullptr) limits.progress->improved(solution.plan->value, solution.bound);

    SolveLimits rest = limits;
    const std::chrono::duration<double> used = std::chrono::steady_clock::now() - start;
    rest.seconds = std::max(0.0, limits.seconds - used.count());
    solution.bound = std::min(chains::lower_bound(problem, *solution.plan, rest), solution.plan->value);
    if (limits.progress != nullptr) limits.progress->improved(solution.plan->value, solution.bound);
    solution.interrupted = search_time.reached() || all_time.reached();
    return solution;
}

}  // namespace spadework::graph
