#include "routing/one_measure.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

using drawing::Dice;

/// A few places, some demands with several weights and multiplicities, and passages in proportion to length or not.
graph::SharedCostProblem random_problem(Dice& dice, bool in_proportion) {
    graph::SharedCostProblem problem;
    problem.vertex_count = static_cast<graph::VertexId>(dice.between(3, 7));
    const auto edges = dice.between(problem.vertex_count - 1, 11);
    for (int e = 0; e < edges; ++e) {
        const bool tree = e + 1 < problem.vertex_count;
        const auto head = static_cast<graph::VertexId>(tree ? e + 1 : dice.between(0, problem.vertex_count - 1));
        const auto tail =
            static_cast<graph::VertexId>(tree ? dice.between(0, e) : dice.between(0, problem.vertex_count - 1));
        const graph::Length length = dice.between(0, 30);
        problem.edges.push_back(
            {tail, head, dice.between(0, 400), length, in_proportion ? 3 * length : dice.between(0, 90)});
    }
    const auto demands = dice.between(1, 4);
    for (int d = 0; d < demands; ++d) {
        problem.demands.push_back({static_cast<graph::VertexId>(dice.between(0, problem.vertex_count - 1)),
                                   dice.between(0, 9), dice.between(1, 3)});
    }
    problem.roots = {{0, 0}};
    return problem;
}

}  // namespace

TEST_CASE("no plan costs more in one measure than in the original, and none less where the measure is exact") {
    Dice dice(61);
    int exact = 0;
    for (int round = 0; round < 1500; ++round) {
        const graph::SharedCostProblem problem = random_problem(dice, dice.one_in(2));
        const OneMeasure measured = in_one_measure(problem);
        const auto solution = graph::sketch(problem, {});
        REQUIRE(solution.plan);
        const auto cost = graph::cost_of(problem, *solution.plan);
        const auto cost_in_one = graph::cost_of(measured.problem, *solution.plan);
        REQUIRE(cost);
        REQUIRE(cost_in_one);
        CHECK(*cost_in_one <= *cost);
        for (const graph::SharedCostEdge& edge : measured.problem.edges)
            CHECK(edge.passage == 0);
        exact += measured.exact ? 1 : 0;
    }
    CHECK(exact > 300);
}

TEST_CASE("solving by measure keeps bound at or below plan, and the plan is one of the original at its own cost") {
    Dice dice(62);
    for (int round = 0; round < 300; ++round) {
        const graph::SharedCostProblem problem = random_problem(dice, dice.one_in(2));
        const auto plain = graph::solve(problem, {});
        const auto solution = solve_by_measure(problem, {});
        REQUIRE(solution.plan);
        CHECK(graph::cost_of(problem, *solution.plan) == solution.plan->value);
        CHECK(solution.bound <= solution.plan->value);
        // Each side's bound holds for the other side's plan.
        CHECK(solution.bound <= plain.plan->value);
        CHECK(plain.bound <= solution.plan->value);
        if (!in_one_measure(problem).exact) CHECK(solution.bound >= plain.bound);
    }
}

}  // namespace spadework
