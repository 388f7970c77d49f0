#include "graph/chain_solver.hpp"

#include <cstdlib>

#include "graph/chain_bound.hpp"
#include "graph/chain_search.hpp"

namespace spadework::graph {

ChainSolution solve(const ChainProblem& problem, const SolveLimits& limits) {
    ChainSolution solution;
    if (!chains::well_formed(problem)) return solution;
    const pair_routes::StopRule stop(limits.seconds, limits.progress);
    chains::Search search(problem, stop, limits.seed);
    auto layout = search.first();
    if (!layout) return solution;
    *layout = search.loosened(*layout);
    search.shake(*layout, getenv("SH") ? atoi(getenv("SH")) : 50);
    solution.plan = plan_from(problem, search.network(), *layout);
    if (!solution.plan) return solution;
    solution.bound = chains::lower_bound(problem, solution.plan->value, limits);
    if (limits.progress != nullptr) limits.progress->improved(solution.plan->value, solution.bound);
    solution.interrupted = stop.reached();
    return solution;
}

}  // namespace spadework::graph
