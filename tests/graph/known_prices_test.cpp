// Prices of a problem, taken over into the reduced one, keep the rules there and prove as much.

#include "graph/known_prices.hpp"

#include <algorithm>
#include <map>

#include <doctest/doctest.h>

#include "graph/priced_solution.hpp"
#include "graph/reduction.hpp"
#include "graph/support/small_problems.hpp"
#include "support/effort.hpp"

using namespace spadework::graph;
using namespace spadework::graph::testing;
using spadework::effort;

namespace {

/// Sparse enough for dead ends and stretches without a fork.
constexpr ProblemShape kSparse{.vertices = 14, .edges = 18, .demands = 5, .roots = 1, .most_passage = 4};

SolveLimits brief() {
    SolveLimits limits;
    limits.seconds = 2.0;
    return limits;
}

/// What is paid on each edge, tail to head and back.
std::map<std::pair<EdgeId, bool>, Cost> sums_of(const EdgePriceSet& prices) {
    std::map<std::pair<EdgeId, bool>, Cost> sums;
    for (const auto& of_demand : prices) {
        for (const EdgePrice& price : of_demand)
            sums[{price.edge, price.backwards}] += price.price;
    }
    return sums;
}

}  // namespace

TEST_CASE("contracted prices come to no more than what opens the reduced edges") {
    Dice dice(71);
    int joined = 0;
    for (int i = 0; i < effort(200); ++i) {
        CAPTURE(i);
        const SharedCostProblem problem = random_problem(kSparse, dice);
        const PricedSolution priced = solve_by_prices(problem, brief(), PlansBuilt::along_flows);
        const auto small = reduced(problem);
        if (!small) continue;
        const auto& certificate = priced.solution.certificate;
        const EdgePriceSet prices = contracted(small->way_back, certificate.prices, small->problem.demands.size());
        for (const auto& [arc, sum] : sums_of(prices))
            REQUIRE(sum <= small->problem.edges[arc.first].opening * certificate.parts);
        joined += small->problem.edges.size() + 2 < problem.edges.size() ? 1 : 0;
    }
    CHECK(joined > effort(100));
}

TEST_CASE("a solve that starts from known prices proves at least what they prove") {
    Dice dice(72);
    int with_demands = 0;
    for (int i = 0; i < effort(300); ++i) {
        CAPTURE(i);
        const SharedCostProblem problem = random_problem(kSparse, dice);
        const PricedSolution cold = solve_by_prices(problem, brief(), PlansBuilt::along_flows);
        if (!cold.solution.plan) continue;
        const KnownPrices known{cold.solution.certificate.prices, cold.solution.certificate.parts};
        const PricedSolution warm = solve_by_prices(problem, brief(), PlansBuilt::along_flows, &known);
        REQUIRE(warm.solution.plan);
        CHECK(warm.solution.bound >= cold.solution.bound);
        CHECK(warm.solution.bound <= warm.solution.plan->value);
        CHECK(bound_proved(problem, warm.solution.certificate)->front() == warm.solution.bound);
        ++with_demands;
    }
    CHECK(with_demands > effort(200));
}

TEST_CASE("what known prices pay is the priced distance beyond the plain one, worked out by hand") {
    SharedCostProblem problem;
    problem.vertex_count = 4;
    problem.edges = {{0, 1, 100, 10, 0}, {1, 2, 50, 4, 0}, {0, 2, 80, 20, 0}, {2, 3, 9, 1, 0}};
    problem.roots = {{0, 0}};
    problem.demands = {{2, 2, 0}};
    const SearchNetwork network(problem, true);
    const std::vector<PathLength> to_root = shortest_reach(network, {0});
    // Plain: 28 over vertex 1. Priced: 28 + 30 + 5 over it, 40 + 20 by the edge of length 20.
    const KnownPrices known{{{{0, 60, false}, {1, 10, false}, {2, 40, false}}}, 2};
    const auto ascent = as_ascent(network, 0, to_root, known);
    REQUIRE(ascent.size() == 1);
    CHECK(ascent.front().paid == doctest::Approx(60.0 - 28.0));
    CHECK(ascent.front().prices.size() == 3);
    // Against the way from the root prices do not count.
    const KnownPrices against{{{{0, 60, true}, {1, 10, false}, {2, 40, false}}}, 2};
    CHECK(as_ascent(network, 0, to_root, against).front().paid == doctest::Approx(33.0 - 28.0));
}
