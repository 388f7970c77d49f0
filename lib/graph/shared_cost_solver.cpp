#include "graph/shared_cost_solver.hpp"

#include <utility>

#include "graph/plan_search.hpp"
#include "graph/priced_solution.hpp"
#include "graph/reduction.hpp"
#include "graph/search_network.hpp"
#include "graph/splitting.hpp"
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

}  // namespace

SharedCostSolution solve(const SharedCostProblem& problem, const SolveLimits& limits) {
    const SolveClock clock(limits.seconds);
    if (!well_formed(problem)) return empty_solution(problem);
    if (steiner::is_steiner_problem(problem)) return steiner::solve_steiner(problem, limits);
    PricedSolution priced = solve_by_prices(problem, limits, PlansBuilt::along_choices_too);
    if (limits.most_splits > 0) return closed_by_splitting(problem, limits, clock, std::move(priced));
    return std::move(priced.solution);
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
