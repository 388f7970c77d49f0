// Checked against an exhaustive solver of separate simple code. No published instances exist for this problem.

#include "graph/chain_solver.hpp"

#include <limits>
#include <random>

#include <doctest/doctest.h>

#include "graph/support/limited_hops.hpp"
#include "graph/support/small_chains.hpp"
#include "support/effort.hpp"

namespace {

using namespace spadework::graph;
using spadework::effort;

using namespace spadework::graph::testing;

SolveLimits ample() {
    SolveLimits limits;
    limits.seconds = 60;
    return limits;
}

void check_family(const Family& family, int rounds, double least_share_found) {
    const int runs = effort(rounds);
    std::mt19937 random(20260102);
    int found = 0;
    int proved = 0;
    for (int run = 0; run < runs; ++run) {
        const ChainProblem p = random_problem(random, family);
        CAPTURE(run);
        const Cost optimum = exhaustive_optimum(p);
        const ChainSolution s = solve(p, ample());
        REQUIRE(s.plan);
        REQUIRE(s.bound <= optimum);
        REQUIRE(s.plan->value >= optimum);
        REQUIRE(cost_of(p, *s.plan) == s.plan->value);
        found += s.plan->value == optimum ? 1 : 0;
        proved += s.bound == optimum ? 1 : 0;
    }
    MESSAGE("optimum found in " << found << " and proved in " << proved << " of " << runs);
    CHECK(found >= least_share_found * runs);
}

/// The same where hops may only be so long, and some problems therefore have no plan.
void check_limited_family(const Family& family, int rounds, double least_share_found) {
    spadework::graph::testing::check_limited_family(
        rounds, least_share_found, ample(), [&](std::mt19937& random) { return random_problem(random, family); },
        [](const ChainProblem& p) { return exhaustive_optimum(p); }, kNever);
}

ChainProblem small_example() {
    ChainProblem p;
    p.vertex_count = 4;  // 0 -- 1 -- 2, 1 -- 3
    p.edges = {{0, 1, 100, 10, 0}, {1, 2, 20, 3, 0}, {1, 3, 30, 4, 0}};
    p.stops = {2, 3};
    p.weight = 2;
    p.chain_cost = 5;
    p.end_saving = 3;
    p.longest_chain = 2;
    return p;
}

}  // namespace

TEST_CASE("a chain plan on a star is priced by hand") {
    ChainProblem p = small_example();
    const ChainSolution s = solve(p, ample());
    REQUIRE(s.plan);
    // Openings 150; source to 2 costs 26, 2 to 3 costs 14; one chain 5 - 3.
    CHECK(s.plan->value == 192);
    CHECK(s.plan->chains.size() == 1);
    CHECK(s.bound <= 192);
    p.longest_chain = 1;
    const ChainSolution apart = solve(p, ample());
    REQUIRE(apart.plan);
    CHECK(apart.plan->chains.size() == 2);  // 150 + 26 + 28 + 2 * 2
    CHECK(apart.plan->value == 208);
}

TEST_CASE("chain plans and bounds bracket the exhaustive optimum") {
    SUBCASE("usual openings") {
        check_family({}, 150, 0.85);
    }
    SUBCASE("with passages") {
        check_family({.passages = true}, 100, 0.85);
    }
    SUBCASE("with cheap trenches, where cycles may pay") {
        check_family({.largest_opening = 4}, 150, 0.7);
    }
    SUBCASE("with free trenches") {
        check_family({.largest_opening = 0}, 60, 0.5);
    }
    SUBCASE("with dear trenches") {
        check_family({.largest_opening = 400}, 100, 0.9);
    }
}

TEST_CASE(
    "chains with hops of limited length stand between the bound and what costs too much, or are told not to exist") {
    SUBCASE("usual openings") {
        check_limited_family({.vertices = 6, .edges = 8, .stops = 3, .longest_hop = 9}, 100, 0.85);
    }
    SUBCASE("with passages") {
        check_limited_family({.vertices = 6, .edges = 8, .stops = 4, .passages = true, .longest_hop = 9}, 60, 0.85);
    }
    SUBCASE("with cheap trenches, where cycles may pay") {
        check_limited_family({.vertices = 6, .edges = 9, .stops = 3, .largest_opening = 4, .longest_hop = 8}, 100, 0.7);
    }
}

TEST_CASE("a hop of a chain that is too long goes by way of a stop between") {
    ChainProblem p = small_example();
    p.stops = {2, 1};
    p.span_of = {10, 3, 4};
    p.longest_hop = 12;
    const ChainSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->value == 100 + 20 + 20 + 6 + 2);
    REQUIRE(s.plan->chains.size() == 1);
    CHECK(s.plan->chains[0][0].stop == 1);
    p.longest_hop = 9;
    const ChainSolution none = solve(p, ample());
    CHECK_FALSE(none.plan);
    REQUIRE(none.with_long_hops);
    CHECK_FALSE(cost_of(p, *none.with_long_hops));
}

TEST_CASE("a chain problem that cannot be planned has no plan") {
    ChainProblem p = small_example();
    SUBCASE("a stop is cut off") {
        p.vertex_count = 5;
        p.stops.push_back(4);
    }
    SUBCASE("chains may hold no stop") {
        p.longest_chain = 0;
    }
    SUBCASE("an unknown stop") {
        p.stops.push_back(99);
    }
    SUBCASE("a negative figure") {
        p.weight = -1;
    }
    SUBCASE("spans of some edges only") {
        p.span_of = {1, 1};
    }
    SUBCASE("spans too large to add up") {
        p.span_of.assign(3, std::numeric_limits<Length>::max());
    }
    SUBCASE("figures too large to add up") {
        p.edges[0].length = std::numeric_limits<Length>::max();
    }
    CHECK_FALSE(solve(p, ample()).plan);
}

TEST_CASE("a chain problem without stops costs nothing") {
    ChainProblem p = small_example();
    p.stops.clear();
    const auto s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->value == 0);
    CHECK(s.plan->chains.empty());
    CHECK(s.bound <= 0);
}

TEST_CASE("the pricing of a chain plan refuses what is not one") {
    const ChainProblem p = small_example();
    ChainPlan plan = *solve(p, ample()).plan;
    REQUIRE(cost_of(p, plan));
    SUBCASE("a hop broken off") {
        plan.chains[0][1].path.pop_back();
    }
    SUBCASE("a hop there and back") {
        plan.chains[0][0].path.insert(plan.chains[0][0].path.end(), {1, 1});
    }
    SUBCASE("a stop left out") {
        plan.chains[0].pop_back();
    }
    SUBCASE("a stop twice") {
        plan.chains.push_back({plan.chains[0][0]});
    }
    SUBCASE("an unknown stop") {
        plan.chains[0][0].stop = 2;
    }
    SUBCASE("an unknown edge") {
        plan.chains[0][0].path = {-1};
    }
    SUBCASE("an empty chain") {
        plan.chains.emplace_back();
    }
    CHECK_FALSE(cost_of(p, plan));
}

TEST_CASE("a chain longer than allowed is refused") {
    ChainProblem p = small_example();
    const ChainPlan plan = *solve(p, ample()).plan;
    REQUIRE(plan.chains[0].size() == 2);
    p.longest_chain = 1;
    CHECK_FALSE(cost_of(p, plan));
}

TEST_CASE("a chain answer does not depend on the number of threads") {
    std::mt19937 random(17);
    for (int run = 0; run < effort(15); ++run) {
        const ChainProblem p = random_problem(random, {.vertices = 30, .edges = 50, .stops = 9, .largest_opening = 90});
        SolveLimits three = ample();
        three.threads = 3;
        const auto a = solve(p, ample());
        const auto b = solve(p, three);
        REQUIRE(a.plan);
        REQUIRE(b.plan);
        CHECK(a.bound == b.bound);
        CHECK(a.plan->value == b.plan->value);
        REQUIRE(a.plan->chains.size() == b.plan->chains.size());
        for (std::size_t c = 0; c < a.plan->chains.size(); ++c) {
            REQUIRE(a.plan->chains[c].size() == b.plan->chains[c].size());
            for (std::size_t i = 0; i < a.plan->chains[c].size(); ++i) {
                CHECK(a.plan->chains[c][i].stop == b.plan->chains[c][i].stop);
                CHECK(a.plan->chains[c][i].path == b.plan->chains[c][i].path);
            }
        }
    }
}
