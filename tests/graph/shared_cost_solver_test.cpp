#include "graph/shared_cost_solver.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "graph/steiner_solver.hpp"
#include "graph/support/small_problems.hpp"

using namespace spadework::graph;
using namespace spadework::graph::testing;

namespace {

SolveLimits short_limits() {
    SolveLimits limits;
    limits.seconds = 2.0;
    return limits;
}

SolveLimits limits_with_splits() {
    SolveLimits limits = short_limits();
    limits.most_splits = 200;
    limits.threads = 2;
    return limits;
}

/// Holds one random problem to the optimum found by trial; counts the proofs.
void compare_with_trial(const SharedCostProblem& problem, const SolveLimits& limits, int& solved, int& proved) {
    const SharedCostSolution solution = solve(problem, limits);
    const auto optimum = optimum_by_trial(problem);
    REQUIRE(solution.plan.has_value() == optimum.has_value());
    if (!optimum) return;
    CHECK(solution.plan->value >= *optimum);
    CHECK(solution.bound <= *optimum);
    CHECK(cost_of(problem, *solution.plan) == solution.plan->value);
    const auto proof = bound_proved(problem, solution.certificate);
    REQUIRE(proof.has_value());
    // Where paths cost nothing the bound may rest on reductions too, and prices prove a part of it.
    if (!steiner::is_steiner_problem(problem)) CHECK(*proof == solution.root_bounds);
    CHECK(solution.bound == *std::min_element(solution.root_bounds.begin(), solution.root_bounds.end()));
    for (std::size_t r = 0; r < proof->size(); ++r) {
        CHECK((*proof)[r] <= solution.root_bounds[r]);
        const auto root_optimum = optimum_by_trial(problem, problem.roots[r]);
        if (root_optimum) CHECK(solution.root_bounds[r] <= *root_optimum);
    }
    CHECK(solution.optimal == (solution.plan->value == solution.bound));
    ++solved;
    proved += solution.optimal ? 1 : 0;
}

/// Runs many random problems of one shape; at least `share` of those with a plan must be proved optimal.
void compare_many(const ProblemShape& shape, int count, std::uint64_t seed, double share,
                  const SolveLimits& limits = short_limits()) {
    Dice dice(seed);
    int solved = 0;
    int proved = 0;
    for (int i = 0; i < count; ++i)
        compare_with_trial(random_problem(shape, dice), limits, solved, proved);
    MESSAGE(solved << " solved, " << proved << " proved optimal");
    CHECK(solved > count / 4);
    CHECK(proved >= static_cast<int>(share * solved));
}

}  // namespace

TEST_CASE("bound <= optimum by trial <= plan on small networks with a fixed root") {
    compare_many({6, 10, 4, 1, 20, 3, 0}, 800, 1, 0.9);
}

TEST_CASE("bound <= optimum by trial <= plan where cables are free") {
    compare_many({7, 11, 5, 1, 20, 0, 0}, 500, 2, 1.0);
}

TEST_CASE("bound <= optimum by trial <= plan with several roots") {
    compare_many({6, 9, 4, 4, 20, 2, 0}, 500, 3, 0.5);
}

TEST_CASE("bound <= optimum by trial <= plan where demands measure paths differently") {
    compare_many({6, 10, 4, 1, 20, 3, 8}, 500, 4, 0.5);
}

TEST_CASE("bound <= optimum by trial <= plan where costs are tiny and ties abound") {
    compare_many({6, 10, 5, 2, 1, 1, 1}, 500, 5, 0.5);
}

TEST_CASE("splits prove the optimum by trial on small networks with a fixed root") {
    compare_many({6, 10, 4, 1, 20, 3, 0}, 800, 1, 1.0, limits_with_splits());
    compare_many({7, 11, 6, 1, 20, 2, 0}, 300, 6, 1.0, limits_with_splits());
}

TEST_CASE("splits prove the optimum by trial where demands measure paths differently") {
    compare_many({6, 10, 4, 1, 20, 3, 8}, 500, 4, 1.0, limits_with_splits());
}
