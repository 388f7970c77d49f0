// Long runs that are stopped, wherever they are, end with a plan and a bound that still holds.

#include <atomic>

#include <doctest/doctest.h>

#include "graph/shared_cost_solver.hpp"
#include "graph/support/small_problems.hpp"

namespace spadework::graph {

namespace {

/// Asks to stop at the n-th question.
class StopAfter : public Progress {
public:
    explicit StopAfter(int questions) : left_(questions) {}
    void improved(std::int64_t /*value*/, std::int64_t /*bound*/) override {}
    [[nodiscard]] bool should_stop() const override { return left_.fetch_sub(1) <= 0; }

private:
    mutable std::atomic<int> left_;
};

}  // namespace

TEST_CASE("A run stopped at any moment ends with a plan not below its bound") {
    testing::Dice dice(11);
    const testing::ProblemShape shape{.vertices = 40, .edges = 90, .demands = 9, .roots = 12, .most_passage = 9};
    int interrupted = 0;
    for (int problem_number = 0; problem_number < 6; ++problem_number) {
        const SharedCostProblem problem = testing::random_problem(shape, dice);
        for (int questions = 0; questions < 60; ++questions) {
            StopAfter stop(questions);
            SolveLimits limits;
            limits.progress = &stop;
            const SharedCostSolution solution = solve(problem, limits);
            if (!solution.plan) break;
            interrupted += solution.interrupted ? 1 : 0;
            CHECK(solution.bound <= solution.plan->value);
            CHECK(cost_of(problem, *solution.plan) == solution.plan->value);
            const auto proved = bound_proved(problem, solution.certificate);
            REQUIRE(proved.has_value());
        }
    }
    CHECK(interrupted > 0);
}

}  // namespace spadework::graph
