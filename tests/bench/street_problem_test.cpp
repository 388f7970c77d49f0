// Invented streets on which flows are the average of plans that differ, so that no plan along all of them is good.

#include "support/street_problem.hpp"

#include <doctest/doctest.h>

#include "graph/priced_solution.hpp"

using namespace spadework;

TEST_CASE("assuming of an edge that it is there, or is not, finds the cheaper plan") {
    for (const std::uint64_t random_seed : {98U, 160U, 162U}) {
        CAPTURE(random_seed);
        bench::Dice dice(random_seed);
        const graph::SharedCostProblem problem = bench::street_problem(bench::street_map({40, 1000}, dice), dice);
        const auto along_flows = solve_by_prices(problem, {}, graph::PlansBuilt::along_flows).solution;
        const auto along_choices = solve_by_prices(problem, {}, graph::PlansBuilt::along_choices_too).solution;
        CHECK(along_choices.plan.value().value < along_flows.plan.value().value);
        CHECK(along_choices.plan.value().value >= along_choices.bound);
        CHECK(cost_of(problem, *along_choices.plan) == along_choices.plan->value);
    }
}
