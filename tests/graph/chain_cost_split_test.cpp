#include "graph/chain_cost_split.hpp"

#include <random>

#include <doctest/doctest.h>

#include "graph/chain_solver.hpp"
#include "support/effort.hpp"

namespace spadework::graph::chains {

namespace {

/// A small connected problem with random figures: a path with chords.
ChainProblem random_chain_problem(std::mt19937_64& random) {
    const auto upto = [&](std::uint64_t most) { return static_cast<std::int64_t>(random() % (most + 1)); };
    ChainProblem problem;
    problem.vertex_count = 7;
    for (VertexId v = 1; v < problem.vertex_count; ++v)
        problem.edges.push_back({v - 1, v, upto(30), upto(9), upto(4)});
    for (int chord = 0; chord < 3; ++chord) {
        problem.edges.push_back(
            {static_cast<VertexId>(upto(6)), static_cast<VertexId>(upto(6)), upto(30), upto(9), upto(4)});
    }
    problem.stops = {2, 4, 6};
    problem.weight = upto(3);
    problem.multiplicity = upto(2);
    problem.longest_chain = static_cast<std::int32_t>(1 + upto(2));
    return problem;
}

/// What a plan pays for hops, each over its own path.
Cost hops_of_plan(const ChainProblem& problem, const ChainPlan& plan) {
    Cost sum = 0;
    for (const auto& chain : plan.chains) {
        for (const auto& hop : chain) {
            for (const EdgeId e : hop.path) {
                const SharedCostEdge& edge = problem.edges[static_cast<std::size_t>(e)];
                sum += problem.weight * edge.length + problem.multiplicity * edge.passage;
            }
        }
    }
    return sum;
}

}  // namespace

TEST_CASE("Whatever the split, opening and hopping together cost no more than a plan") {
    std::mt19937_64 random(5);
    for (int round = 0; round < effort(300); ++round) {
        const ChainProblem problem = random_chain_problem(random);
        const ChainSolution solution = solve(problem, SolveLimits{});
        REQUIRE(solution.plan.has_value());
        CostSplit split;
        for (const SharedCostEdge& edge : problem.edges) {
            const Cost whole = problem.weight * edge.length + problem.multiplicity * edge.passage;
            split.push_back(whole > 0 ? static_cast<Cost>(random() % static_cast<std::uint64_t>(whole + 1)) : 0);
        }
        const SharedCostSolution joined = solve(joining_problem(problem, split), SolveLimits{});
        REQUIRE(joined.plan.has_value());
        const Cost hops = least_hops(shortest_hops(hopping_problem(problem, split)), {}, solution.plan->value);
        CHECK(joined.bound + hops <= solution.plan->value);
    }
}

TEST_CASE("A split of nothing leaves the hops their whole charge, a whole split leaves them none") {
    std::mt19937_64 random(6);
    const ChainProblem problem = random_chain_problem(random);
    const ChainSolution solution = solve(problem, SolveLimits{});
    REQUIRE(solution.plan.has_value());
    const CostSplit nothing(problem.edges.size(), 0);
    CHECK(hops_of_plan(hopping_problem(problem, nothing), *solution.plan) == hops_of_plan(problem, *solution.plan));
    CostSplit whole;
    for (const SharedCostEdge& edge : problem.edges)
        whole.push_back(problem.weight * edge.length + problem.multiplicity * edge.passage);
    CHECK(hops_of_plan(hopping_problem(problem, whole), *solution.plan) == 0);
}

TEST_CASE("A good split stays between nothing and the whole of each edge's charge") {
    std::mt19937_64 random(7);
    for (int round = 0; round < effort(40); ++round) {
        const ChainProblem problem = random_chain_problem(random);
        const CostSplit split = good_split(problem, {}, 1000, SolveLimits{});
        REQUIRE(split.size() == problem.edges.size());
        for (std::size_t e = 0; e < split.size(); ++e) {
            const SharedCostEdge& edge = problem.edges[e];
            CHECK(split[e] >= 0);
            CHECK(split[e] <= problem.weight * edge.length + problem.multiplicity * edge.passage);
        }
    }
}

}  // namespace spadework::graph::chains
