#include "graph/priced_solution.hpp"

#include <algorithm>

#include "graph/reduction.hpp"
#include "graph/solve_run.hpp"

namespace spadework::graph {

namespace {

void set_bounds(const SharedCostProblem& problem, SharedCostSolution& solution) {
    solution.root_bounds =
        bound_proved(problem, solution.certificate).value_or(std::vector<Cost>(problem.roots.size(), 0));
    if (!solution.plan) return;
    solution.bound = *std::min_element(solution.root_bounds.begin(), solution.root_bounds.end());
    for (std::size_t r = 0; r < solution.root_bounds.size(); ++r) {
        if (solution.root_bounds[r] <= solution.plan->value)
            solution.roots_left.push_back(static_cast<std::int32_t>(r));
    }
    solution.optimal = solution.plan->value == solution.bound;
}

}  // namespace

PricedSolution solve_by_prices(const SharedCostProblem& problem, const SolveLimits& limits, PlansBuilt plans,
                               const KnownPrices* known) {
    PricedSolution priced;
    SharedCostSolution& solution = priced.solution;
    solution.certificate.prices.resize(problem.demands.size());
    const auto small = reduced(problem);
    if (!small) return priced;
    SolveRun run(problem, *small, limits, known);
    run.run();
    if (plans == PlansBuilt::along_choices_too) run.try_choices();
    solution.plan = run.plan();
    priced.edge_use = run.edge_use();
    solution.certificate = run.certificate();
    solution.interrupted = run.interrupted();
    set_bounds(problem, solution);
    return priced;
}

}  // namespace spadework::graph
