#include "graph/shared_cost_solver.hpp"

#include <algorithm>

#include "graph/plan_search.hpp"
#include "graph/reduction.hpp"
#include "graph/solve_run.hpp"
#include "graph/steiner_solver.hpp"
#include "graph/well_formed.hpp"

namespace spadework::graph {

namespace {

SharedCostSolution empty_solution(const SharedCostProblem& problem) {
    SharedCostSolution solution;
    solution.certificate.prices.resize(problem.demands.size());
    return solution;
}

SharedCostPlan original_plan(const SharedCostProblem& problem, const ReducedProblem& small,
                             const SearchNetwork& network, const RouteTree& tree) {
    SharedCostPlan plan = expanded(small.way_back, plan_of(network, tree), small.problem.edges, small.problem.roots);
    plan.value = cost_of(problem, plan).value_or(kLargestCost);
    return plan;
}

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

SharedCostSolution solve(const SharedCostProblem& problem, const SolveLimits& limits) {
    SharedCostSolution solution = empty_solution(problem);
    if (!well_formed(problem)) return solution;
    if (steiner::is_steiner_problem(problem)) return steiner::solve_steiner(problem, limits);
    const auto small = reduced(problem);
    if (!small) return solution;
    SolveRun run(problem, *small, limits);
    run.run();
    solution.plan = run.plan();
    solution.certificate = run.certificate();
    solution.interrupted = run.interrupted();
    set_bounds(problem, solution);
    return solution;
}

SharedCostSolution sketch(const SharedCostProblem& problem, const SolveLimits& /*limits*/) {
    SharedCostSolution solution = empty_solution(problem);
    if (!well_formed(problem)) return solution;
    const auto small = reduced(problem);
    if (!small) return solution;
    const SearchNetwork network(small->problem, small->one_measure);
    solution.plan = original_plan(problem, *small, network, sketched_tree(network).tree);
    return solution;
}

}  // namespace spadework::graph
