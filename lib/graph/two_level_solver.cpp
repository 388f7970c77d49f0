#include "graph/two_level_solver.hpp"

#include <algorithm>
#include <cmath>

#include "graph/two_level_bound.hpp"
#include "graph/two_level_search.hpp"

namespace spadework::graph {

namespace {

std::pair<std::int32_t, std::int32_t> counts_to_try(const TwoLevelProblem& problem) {
    const auto sites = static_cast<std::int64_t>(problem.sites.size());
    const auto most = static_cast<std::int32_t>(std::min<std::int64_t>(problem.most_sites, sites));
    return {std::max(problem.fewest_sites, 0), most};
}

void keep_if_better(TwoLevelSolution& solution, const TwoLevelPlan& plan) {
    auto& same_count = solution.best_by_count[plan.open.size()];
    if (!same_count || plan.value < same_count->value) same_count = plan;
    if (!solution.plan || plan.value < solution.plan->value) solution.plan = plan;
}

}  // namespace

TwoLevelSolution solve(const TwoLevelProblem& problem, const SolveLimits& limits) {
    TwoLevelSolution solution;
    if (!two_level::well_formed(problem)) return solution;
    const pair_routes::StopRule stop(limits.seconds, limits.progress);
    const auto [fewest, most] = counts_to_try(problem);
    if (fewest > most) return solution;
    solution.best_by_count.resize(static_cast<std::size_t>(most) + 1);

    two_level::Search search(problem, stop);
    for (std::int32_t count = fewest; search.possible() && count <= most; ++count) {
        if (solution.plan && stop.reached()) break;
        const auto layout = search.with_sites(count);
        if (!layout) continue;
        const auto plan = plan_from(problem, search.network(), search.feeders(), *layout);
        if (!plan) continue;
        keep_if_better(solution, *plan);
        if (limits.progress != nullptr) limits.progress->improved(solution.plan->value, solution.bound);
    }
    if (!solution.plan) return solution;
    const auto enough =
        static_cast<Cost>(std::ceil(static_cast<double>(solution.plan->value) * (1.0 - limits.target_gap)));
    const Cost toll = 0;
    solution.bound = two_level::lower_bound(problem, *solution.plan, toll, {enough, limits.threads, &stop});
    if (limits.progress != nullptr) limits.progress->improved(solution.plan->value, solution.bound);
    solution.interrupted = stop.reached();
    return solution;
}

}  // namespace spadework::graph
