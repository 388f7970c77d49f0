// Streets, invented, on which a price search once dived: steps aimed at the gap that the last bound left, and each fall
// made the next step longer. Its bound stayed 1.04 % below the plan.

#include <string>

#include <doctest/doctest.h>

#include "graph/shared_cost_solver.hpp"
#include "support/routing_file.hpp"

using namespace spadework;

namespace {

graph::SharedCostSolution solved(int most_splits) {
    const std::string path = std::string(SPADEWORK_SOURCE_DIR) + "/tests/bench/narrow_streets.txt";
    const bench::RoutingCase streets = bench::read_routing_case(bench::file_text(path), {});
    REQUIRE(streets.errors.empty());
    graph::SolveLimits limits;
    limits.seconds = 60.0;
    limits.most_splits = most_splits;
    return graph::solve(streets.problem, limits);
}

}  // namespace

TEST_CASE("prices that fall far below the best do not fall for good") {
    const graph::SharedCostSolution solution = solved(0);
    REQUIRE(solution.plan);
    CHECK(solution.plan->value == 1'806'883'327);
    CHECK(static_cast<double>(solution.bound) > 0.9997 * static_cast<double>(solution.plan->value));
}

TEST_CASE("one split closes the gap that prices leave") {
    const graph::SharedCostSolution solution = solved(1);
    CHECK(solution.optimal);
    CHECK(solution.certificate.splits.size() == 2);
}
