// Numbers and shapes at the ends of what is allowed: nothing, a great deal, very many, very deep.

#include <algorithm>
#include <limits>
#include <sys/resource.h>

#include <doctest/doctest.h>

#include "graph/shared_cost_solver.hpp"
#include "graph/support/small_problems.hpp"

namespace spadework::graph {

namespace {

using testing::Dice;

/// What every answer must hold to, whatever the numbers.
SharedCostSolution sound(const SharedCostProblem& problem, double seconds = 2.0) {
    const SharedCostSolution solution = solve(problem, {.seconds = seconds});
    REQUIRE(solution.plan.has_value());
    CHECK(solution.bound >= 0);
    CHECK(solution.bound <= solution.plan->value);
    CHECK(cost_of(problem, *solution.plan) == solution.plan->value);
    const auto proved = bound_proved(problem, solution.certificate);
    REQUIRE(proved.has_value());
    CHECK(*std::min_element(proved->begin(), proved->end()) <= solution.plan->value);
    return solution;
}

/// A square grid with random costs up to the given ones.
SharedCostProblem grid(VertexId side, int demands, Cost most_opening, Length most_length, Cost most_weight) {
    Dice dice(5);
    SharedCostProblem problem;
    problem.vertex_count = side * side;
    for (VertexId v = 0; v < problem.vertex_count; ++v) {
        if (v % side + 1 < side)
            problem.edges.push_back({v, v + 1, dice.upto(most_opening), dice.upto(most_length), 0});
        if (v + side < problem.vertex_count)
            problem.edges.push_back({v, v + side, dice.upto(most_opening), dice.upto(most_length), 0});
    }
    for (int d = 0; d < demands; ++d) {
        const auto at = static_cast<VertexId>(dice.upto(problem.vertex_count - 1));
        problem.demands.push_back({at, dice.upto(most_weight), 1});
    }
    problem.roots = {{problem.vertex_count / 2, 0}};
    return problem;
}

/// Holds the stack to the usual 8 MiB while it lives, so that a search that recurses once a vertex is found out.
class UsualStack {
public:
    UsualStack() {
        getrlimit(RLIMIT_STACK, &before_);
        rlimit usual = before_;
        usual.rlim_cur = std::min<rlim_t>(before_.rlim_cur, 8U << 20U);
        setrlimit(RLIMIT_STACK, &usual);
    }
    ~UsualStack() { setrlimit(RLIMIT_STACK, &before_); }
    UsualStack(const UsualStack&) = delete;
    UsualStack& operator=(const UsualStack&) = delete;

private:
    rlimit before_{};
};

constexpr VertexId long_path = 300'000;

/// A path whose edges open at 3 and are 2 long, from the root at one end.
SharedCostProblem path_problem() {
    SharedCostProblem problem;
    problem.vertex_count = long_path;
    for (VertexId v = 0; v + 1 < long_path; ++v)
        problem.edges.push_back({v, v + 1, 3, 2, 0});
    problem.roots = {{0, 0}};
    return problem;
}

}  // namespace

TEST_CASE("Where every edge is free, so is the plan, and that is proved") {
    const SharedCostSolution solution = sound(grid(12, 20, 0, 0, 9));
    CHECK(solution.plan->value == 0);
    CHECK(solution.optimal);
}

TEST_CASE("Free edges among others leave bound <= optimum by trial <= plan") {
    Dice dice(6);
    int solved = 0;
    for (int round = 0; round < 150; ++round) {
        CAPTURE(round);
        SharedCostProblem problem = testing::random_problem({6, 10, 4, 2, 20, 3, 0}, dice);
        for (SharedCostEdge& edge : problem.edges) {
            if (dice.upto(1) == 0) edge = {edge.tail, edge.head, 0, 0, 0};
        }
        const auto optimum = testing::optimum_by_trial(problem);
        if (!optimum) continue;
        const SharedCostSolution solution = sound(problem);
        CHECK(solution.bound <= *optimum);
        CHECK(solution.plan->value >= *optimum);
        ++solved;
    }
    CHECK(solved > 40);
}

TEST_CASE("Opening costs and path charges of 10^12 on thousands of edges keep value and bound exact") {
    const Cost huge = 1'000'000'000'000;
    const SharedCostSolution solution = sound(grid(45, 25, huge, 1'000'000, 1'000'000));
    CHECK(solution.plan->value > huge);
    CHECK(solution.bound > solution.plan->value / 2);
}

TEST_CASE("Costs whose sum only just fits a Cost are still added exactly") {
    SharedCostProblem problem;
    problem.vertex_count = 9;
    const Cost eighth = std::numeric_limits<Cost>::max() / 8;
    for (VertexId v = 0; v < 8; ++v)
        problem.edges.push_back({v, v + 1, eighth - 1, 0, 0});
    problem.demands = {{8, 0, 0}};
    problem.roots = {{0, 0}};
    const SharedCostSolution solution = sound(problem);
    CHECK(solution.plan->value == 8 * (eighth - 1));
}

TEST_CASE("Costs whose sum does not fit a Cost end without overflow, the bound not above the plan") {
    SharedCostProblem problem = grid(8, 12, std::numeric_limits<Cost>::max() / 8, 1'000'000'000, 1'000'000'000);
    const SharedCostSolution solution = solve(problem, {.seconds = 1.0});
    REQUIRE(solution.plan.has_value());
    CHECK(solution.bound <= solution.plan->value);
    CHECK(cost_of(problem, *solution.plan) == solution.plan->value);
}

TEST_CASE("Of 50,000 parallel edges the best for the demand is taken, and proved") {
    Dice dice(7);
    SharedCostProblem problem;
    problem.vertex_count = 2;
    Cost best = std::numeric_limits<Cost>::max();
    for (int e = 0; e < 50'000; ++e) {
        problem.edges.push_back({e % 2, 1 - e % 2, 100 + dice.upto(1'000'000), 1 + dice.upto(100'000), 0});
        best = std::min(best, problem.edges.back().opening + 7 * problem.edges.back().length);
    }
    problem.demands = {{1, 7, 1}};
    problem.roots = {{0, 0}};
    const SharedCostSolution solution = sound(problem);
    CHECK(solution.plan->value == best);
    CHECK(solution.optimal);
}

TEST_CASE("Several demands over 50,000 parallel edges cost no more than all over the one best for them together") {
    Dice dice(8);
    SharedCostProblem problem;
    problem.vertex_count = 2;
    Cost best = std::numeric_limits<Cost>::max();
    for (int e = 0; e < 50'000; ++e) {
        problem.edges.push_back({0, 1, 100 + dice.upto(1'000'000), 1 + dice.upto(100'000), 0});
        best = std::min(best, problem.edges.back().opening + 12 * problem.edges.back().length);
    }
    problem.demands = {{1, 7, 1}, {1, 4, 1}, {1, 1, 1}};
    problem.roots = {{0, 0}};
    CHECK(sound(problem).plan->value == best);
}

TEST_CASE("A path of 300,000 vertices is walked to its end on the usual stack") {
    const UsualStack stack;
    SharedCostProblem problem = path_problem();
    problem.demands = {{long_path - 1, 1, 1}};
    const SharedCostSolution solution = sound(problem);
    CHECK(solution.plan->value == Cost{5} * (long_path - 1));
    CHECK(solution.optimal);
}

TEST_CASE("Demands all along a path of 300,000 vertices share it on the usual stack") {
    const UsualStack stack;
    SharedCostProblem problem = path_problem();
    Cost value = Cost{3} * (long_path - 1);
    for (VertexId at = long_path - 1; at > 0; at -= 60'000) {
        problem.demands.push_back({at, 1, 1});
        value += Cost{2} * at;
    }
    const SharedCostSolution solution = sound(problem);
    CHECK(solution.plan->value == value);
    CHECK(solution.optimal);
}

TEST_CASE("A ladder of 300,000 vertices, which no reduction undoes, is searched on the usual stack") {
    const UsualStack stack;
    SharedCostProblem problem;
    problem.vertex_count = long_path;
    Dice dice(9);
    for (VertexId v = 0; v + 2 < long_path; ++v)
        problem.edges.push_back({v, v + 2, 1 + dice.upto(50), 1 + dice.upto(20), 0});
    for (VertexId v = 0; v + 1 < long_path; v += 2)
        problem.edges.push_back({v, v + 1, 1 + dice.upto(9), 1, 0});
    problem.roots = {{0, 0}};
    problem.demands = {{long_path - 1, 1, 1}, {long_path / 2, 2, 1}};
    sound(problem, 1.0);
}

TEST_CASE("Demands that all stand at the root cost nothing, and that is proved") {
    SharedCostProblem problem = grid(6, 0, 50, 9, 0);
    for (int d = 0; d < 30; ++d)
        problem.demands.push_back({problem.roots.front().at, 5, 1});
    const SharedCostSolution solution = sound(problem);
    CHECK(solution.plan->value == 0);
    CHECK(solution.optimal);
    CHECK(std::all_of(solution.plan->paths.begin(), solution.plan->paths.end(),
                      [](const std::vector<EdgeId>& path) { return path.empty(); }));
}

TEST_CASE("Demands that all stand at one of the roots weigh that root's cost against the way from another") {
    SharedCostProblem problem;
    problem.vertex_count = 3;
    problem.edges = {{0, 1, 10, 1, 0}, {1, 2, 10, 1, 0}};
    problem.demands = {{2, 1, 1}, {2, 1, 1}};
    problem.roots = {{2, 100}, {1, 3}, {0, 0}};
    const SharedCostSolution solution = sound(problem);
    CHECK(solution.plan->value == 15);
    CHECK(solution.plan->root == 1);
    CHECK(solution.optimal);
}

}  // namespace spadework::graph
