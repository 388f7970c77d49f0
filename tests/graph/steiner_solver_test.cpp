// Problems with free paths, through the solver: bound <= optimum <= value, prices that prove what they say, and the
// odd shapes.

#include "graph/steiner_solver.hpp"

#include <numeric>

#include <doctest/doctest.h>

#include "graph/support/small_steiner.hpp"

namespace spadework::graph::steiner {

using testing::Dice;
using testing::least_tree;
using testing::SteinerCase;
using testing::SteinerShape;

namespace {

/// The solver works with free paths only where nothing is paid along them.
void check_against_optimum(const SharedCostProblem& problem, Cost optimum, const SolveLimits& limits, bool must_close) {
    REQUIRE(is_steiner_problem(problem));
    const SharedCostSolution solution = solve(problem, limits);
    REQUIRE(solution.plan.has_value());
    CHECK(cost_of(problem, *solution.plan) == solution.plan->value);
    CHECK(solution.bound <= optimum);
    CHECK(optimum <= solution.plan->value);
    CHECK(solution.root_bounds == std::vector<Cost>{solution.bound});
    CHECK(solution.optimal == (solution.bound == solution.plan->value));
    if (must_close) CHECK(solution.optimal);
    const auto proved = bound_proved(problem, solution.certificate);
    REQUIRE(proved.has_value());
    CHECK(proved->front() <= solution.bound);
    CHECK(2 * proved->front() >= optimum);
}

SolveLimits limits_of(double seconds, int threads = 1) {
    SolveLimits limits;
    limits.seconds = seconds;
    limits.threads = threads;
    return limits;
}

void check_many(const SteinerShape& shape, int count, std::uint64_t seed) {
    Dice dice(seed);
    for (int i = 0; i < count; ++i) {
        CAPTURE(i);
        const SteinerCase made = testing::random_steiner(shape, dice);
        check_against_optimum(testing::problem_of(made), least_tree(made) + 7, limits_of(20), true);
    }
}

}  // namespace

TEST_CASE("random Steiner problems are solved to the optimum that dynamic programming finds") {
    check_many({12, 20, 5, 20, true}, 800, 41);
    check_many({20, 45, 7, 100, true}, 300, 42);
    check_many({16, 40, 6, 2, true}, 500, 43);
    check_many({14, 60, 8, 50, true}, 200, 44);
    check_many({10, 14, 10, 9, true}, 200, 45);
}

TEST_CASE("costs of a trillion are summed without loss") {
    check_many({14, 26, 6, 1'000'000'000'000, true}, 200, 46);
}

TEST_CASE("one terminal, or demands at the root only, cost nothing but the root") {
    SharedCostProblem problem;
    problem.vertex_count = 3;
    problem.edges = {{0, 1, 5, 0, 0}, {1, 2, 5, 0, 0}};
    problem.roots = {{1, 4}};
    check_against_optimum(problem, 4, limits_of(1), true);
    problem.demands = {{1, 0, 1}, {1, 0, 1}};
    check_against_optimum(problem, 4, limits_of(1), true);
}

TEST_CASE("edges that cost nothing, loops and parallels are no obstacle") {
    SharedCostProblem problem;
    problem.vertex_count = 4;
    problem.edges = {{0, 0, 1, 0, 0}, {0, 1, 0, 0, 0}, {1, 0, 3, 0, 0}, {1, 2, 9, 0, 0},
                     {2, 1, 4, 0, 0}, {1, 2, 4, 0, 0}, {2, 3, 0, 0, 0}};
    problem.roots = {{0, 0}};
    problem.demands = {{3, 0, 1}, {3, 0, 1}, {1, 0, 1}};
    check_against_optimum(problem, 4, limits_of(1), true);
    for (SharedCostEdge& edge : problem.edges)
        edge.opening = 0;
    check_against_optimum(problem, 0, limits_of(1), true);
}

TEST_CASE("a long path and a wide star are no obstacle") {
    SharedCostProblem path;
    path.vertex_count = 200'000;
    for (VertexId v = 0; v + 1 < path.vertex_count; ++v)
        path.edges.push_back({v, v + 1, 1 + v % 7, 0, 0});
    path.roots = {{0, 0}};
    path.demands = {{path.vertex_count - 1, 0, 1}};
    const Cost length = std::accumulate(path.edges.begin(), path.edges.end(), Cost{0},
                                        [](Cost sum, const SharedCostEdge& e) { return sum + e.opening; });
    check_against_optimum(path, length, limits_of(60), true);

    SharedCostProblem star;
    star.vertex_count = 6'000;
    for (VertexId v = 1; v < star.vertex_count; ++v) {
        star.edges.push_back({0, v, 3, 0, 0});
        if (v % 2 == 0) star.demands.push_back({v, 0, 1});
    }
    star.roots = {{1, 0}};
    check_against_optimum(star, 3 * (static_cast<Cost>(star.demands.size()) + 1), limits_of(60), true);
}

TEST_CASE("a demand that cannot be reached leaves no plan") {
    SharedCostProblem problem;
    problem.vertex_count = 4;
    problem.edges = {{0, 1, 1, 0, 0}, {2, 3, 1, 0, 0}};
    problem.roots = {{0, 0}};
    problem.demands = {{3, 0, 1}};
    CHECK_FALSE(is_steiner_problem(problem));
    CHECK_FALSE(solve(problem, limits_of(1)).plan.has_value());
}

TEST_CASE("a problem that pays along paths, has rival roots or too large sums is left to the general solver") {
    SharedCostProblem problem;
    problem.vertex_count = 2;
    problem.edges = {{0, 1, 1, 2, 0}};
    problem.roots = {{0, 0}};
    problem.demands = {{1, 0, 1}};
    CHECK(is_steiner_problem(problem));
    problem.demands[0].weight = 1;
    CHECK_FALSE(is_steiner_problem(problem));
    problem.demands[0].weight = 0;
    problem.edges[0].passage = 1;
    CHECK_FALSE(is_steiner_problem(problem));
    problem.demands[0].multiplicity = 0;
    CHECK(is_steiner_problem(problem));
    problem.edges[0].opening = std::numeric_limits<Cost>::max() / 8;
    CHECK_FALSE(is_steiner_problem(problem));
    CHECK(solve(problem, limits_of(1)).plan->value == std::numeric_limits<Cost>::max() / 8);
    problem.edges[0].opening = 1;
    problem.roots.push_back({1, 0});
    CHECK_FALSE(is_steiner_problem(problem));
}

TEST_CASE("with no time at all there is still a plan and a valid bound") {
    Dice dice(47);
    for (int i = 0; i < 100; ++i) {
        const SteinerCase made = testing::random_steiner({30, 60, 8, 50, true}, dice);
        const SharedCostProblem problem = testing::problem_of(made);
        const SharedCostSolution solution = solve(problem, limits_of(0));
        REQUIRE(solution.plan.has_value());
        CHECK(cost_of(problem, *solution.plan) == solution.plan->value);
        CHECK(solution.bound <= least_tree(made) + 7);
        CHECK(bound_proved(problem, solution.certificate).has_value());
    }
}

TEST_CASE("the answer does not depend on the number of threads") {
    Dice dice(48);
    for (int i = 0; i < 12; ++i) {
        const SteinerCase made = testing::random_steiner({220, 420, 40, 100, true}, dice);
        const SharedCostProblem problem = testing::problem_of(made);
        const SharedCostSolution one = solve(problem, limits_of(60, 1));
        const SharedCostSolution three = solve(problem, limits_of(60, 3));
        CHECK(one.bound == three.bound);
        CHECK(one.plan->paths == three.plan->paths);
        CHECK(one.optimal);
    }
}

}  // namespace spadework::graph::steiner
