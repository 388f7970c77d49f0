// Checked against an exhaustive solver of separate simple code. No published instances exist for this problem.

#include "graph/ring_solver.hpp"

#include <limits>
#include <random>

#include <doctest/doctest.h>

#include "graph/support/limited_hops.hpp"
#include "graph/support/small_rings.hpp"
#include "support/effort.hpp"

namespace {

using namespace spadework::graph;
using spadework::effort;
using namespace spadework::graph::testing::rings;

SolveLimits ample() {
    SolveLimits limits;
    limits.seconds = 60;
    return limits;
}

void check_family(const Family& family, int rounds, double least_share_found) {
    const int runs = effort(rounds);
    std::mt19937 random(20260103);
    int found = 0;
    int proved = 0;
    for (int run = 0; run < runs; ++run) {
        const RingProblem p = random_problem(random, family);
        CAPTURE(run);
        const Cost optimum = Exhaustive(p).run();
        const RingSolution s = solve(p, ample());
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
        [](const RingProblem& p) { return Exhaustive(p).run(); }, kNever);
}

/// A square 0-1-2-3 with the source at 0 and a spur from 2 to 4.
RingProblem square_with_spur() {
    RingProblem p;
    p.vertex_count = 5;
    p.edges = {{0, 1, 100, 10, 0}, {1, 2, 100, 10, 0}, {2, 3, 100, 10, 0}, {3, 0, 100, 10, 0}, {2, 4, 50, 5, 0}};
    p.cut_of = {0, 1, 2, 3, 4};
    p.stops = {1, 4};
    p.weight = 1;
    p.ring_cost = 7;
    p.longest_ring = 2;
    return p;
}

RingPlan round_the_square() {
    RingPlan plan;
    plan.rings = {{{{0, {0}}, {1, {1, 4}}}, {3, 2, 4}}};
    return plan;
}

}  // namespace

TEST_CASE("a ring round a square with a spur is priced by hand, and the bound meets it") {
    const RingProblem p = square_with_spur();
    const RingSolution s = solve(p, ample());
    REQUIRE(s.plan);
    // Openings 450; four sides of 10 once, the spur of 5 twice; one ring.
    CHECK(s.plan->value == 507);
    CHECK(s.bound == 507);
    REQUIRE(s.plan->rings.size() == 1);
    CHECK(s.plan->rings[0].hops.size() == 2);
    CHECK(cost_of(p, round_the_square()) == 507);
}

TEST_CASE("rings that hold one stop go two ways round") {
    RingProblem p = square_with_spur();
    p.longest_ring = 1;
    const RingSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->rings.size() == 2);
    CHECK(s.plan->value == 450 + 2 * 40 + 10 + 14);
    CHECK(s.bound <= s.plan->value);
}

TEST_CASE("a ring passes a stretch twice only where the map has no second way") {
    const RingProblem p = square_with_spur();
    RingPlan there_and_back = round_the_square();
    there_and_back.rings[0].back = {0, 1, 4};  // Cheaper, and a cut of either side takes the stop at 4 down.
    CHECK(!cost_of(p, there_and_back));
    RingProblem without_last_side = p;
    without_last_side.edges.erase(without_last_side.edges.begin() + 3);
    without_last_side.cut_of.erase(without_last_side.cut_of.begin() + 3);
    there_and_back.rings[0].hops[1].path = {1, 3};
    there_and_back.rings[0].back = {0, 1, 3};
    CHECK(cost_of(without_last_side, there_and_back) == 100 + 100 + 50 + 10 * 4 + 5 * 2 + 7);
}

TEST_CASE("two ways of one stretch are no second way") {
    RingProblem p;
    p.vertex_count = 2;
    p.edges = {{0, 1, 100, 10, 0}, {1, 0, 20, 30, 0}};
    p.cut_of = {0, 0};
    p.stops = {1};
    p.weight = 1;
    const RingSolution one_stretch = solve(p, ample());
    REQUIRE(one_stretch.plan);
    CHECK(one_stretch.plan->value == 20 + 2 * 30);  // A bridge: both ways by the cheaper.
    CHECK(one_stretch.bound == 80);
    p.cut_of = {0, 1};
    const RingSolution two_stretches = solve(p, ample());
    REQUIRE(two_stretches.plan);
    CHECK(two_stretches.plan->value == 100 + 10 + 20 + 30);
    CHECK(two_stretches.bound == 160);
}

TEST_CASE("stops where the source is cost a ring and nothing else") {
    RingProblem p = square_with_spur();
    p.stops = {0, 0, 0};
    const RingSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->value == 14);
    CHECK(s.bound == 14);
}

TEST_CASE("a plan that is none of the problem has no cost") {
    const RingProblem p = square_with_spur();
    RingPlan plan = round_the_square();
    SUBCASE("a stop left out") {
        plan.rings[0].hops.pop_back();
        plan.rings[0].back = {3, 2, 1};
    }
    SUBCASE("a stop twice") {
        plan.rings.push_back(plan.rings[0]);
    }
    SUBCASE("a ring not closed") {
        plan.rings[0].back.pop_back();
    }
    SUBCASE("a hop that leads elsewhere") {
        plan.rings[0].hops[1].path = {1};
    }
    SUBCASE("an unknown edge") {
        plan.rings[0].hops[0].path = {9};
    }
    SUBCASE("a ring without stops") {
        plan.rings.emplace_back();
    }
    CHECK(!cost_of(p, plan));
}

TEST_CASE("too long a ring has no cost") {
    RingProblem p = square_with_spur();
    p.longest_ring = 1;
    CHECK(!cost_of(p, round_the_square()));
}

TEST_CASE("a ring problem that cannot be planned has no plan") {
    RingProblem p = square_with_spur();
    SUBCASE("a stop is cut off") {
        p.vertex_count = 6;
        p.stops.push_back(5);
    }
    SUBCASE("rings may hold no stop") {
        p.longest_ring = 0;
    }
    SUBCASE("an unknown stop") {
        p.stops.push_back(99);
    }
    SUBCASE("a negative figure") {
        p.weight = -1;
    }
    SUBCASE("an edge without a cut") {
        p.cut_of.pop_back();
    }
    SUBCASE("a cut in two places") {
        p.cut_of[1] = 0;
    }
    SUBCASE("spans of some edges only") {
        p.span_of = {1, 1};
    }
    SUBCASE("two spans of one cut") {
        p.edges.push_back(p.edges[0]);
        p.cut_of.push_back(p.cut_of[0]);
        p.span_of = {1, 1, 1, 1, 1, 2};
    }
    SUBCASE("spans too large to add up") {
        p.span_of.assign(5, std::numeric_limits<Length>::max());
    }
    SUBCASE("figures too large to add up") {
        p.edges[0].length = std::numeric_limits<Length>::max();
    }
    const RingSolution s = solve(p, ample());
    CHECK(!s.plan);
    CHECK(s.bound == 0);
}

TEST_CASE("no stops need no ring") {
    RingProblem p = square_with_spur();
    p.stops.clear();
    const RingSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->rings.empty());
    CHECK(s.plan->value == 0);
    CHECK(s.bound == 0);
}

TEST_CASE("ring plans and bounds bracket the exhaustive optimum") {
    SUBCASE("usual openings") {
        check_family({}, 150, 0.85);
    }
    SUBCASE("with passages and second ways of a stretch") {
        check_family({.passages = true, .second_ways = true}, 100, 0.8);
    }
    SUBCASE("with free trenches") {
        check_family({.largest_opening = 0}, 60, 0.7);
    }
    SUBCASE("with dear trenches") {
        check_family({.largest_opening = 400}, 100, 0.85);
    }
    SUBCASE("with few second ways") {
        check_family({.vertices = 8, .cuts = 9, .stops = 4}, 100, 0.85);
    }
}

TEST_CASE(
    "rings with hops of limited length stand between the bound and what costs too much, or are told not to exist") {
    SUBCASE("usual openings") {
        check_limited_family({.longest_hop = 11}, 100, 0.85);
    }
    SUBCASE("with passages and second ways of a stretch") {
        check_limited_family({.passages = true, .second_ways = true, .longest_hop = 12}, 100, 0.8);
    }
    SUBCASE("with free trenches") {
        check_limited_family({.largest_opening = 0, .longest_hop = 10}, 100, 0.7);
    }
    SUBCASE("with one more stop") {
        check_limited_family({.vertices = 7, .cuts = 10, .stops = 4, .longest_hop = 10}, 60, 0.75);
    }
}

TEST_CASE("a hop too long for one cable goes by way of a stop between") {
    RingProblem p = square_with_spur();
    p.stops = {2, 1};
    p.span_of = {10, 10, 10, 10, 5};
    p.longest_hop = 20;
    const RingSolution free = solve(p, ample());
    REQUIRE(free.plan);
    CHECK(free.plan->value == 400 + 40 + 7);
    p.longest_hop = 19;
    const RingSolution none = solve(p, ample());
    CHECK(!none.plan);
    REQUIRE(none.with_long_hops);
    p.stops = {2, 1, 3};
    p.longest_ring = 3;
    const RingSolution by_neighbours = solve(p, ample());
    REQUIRE(by_neighbours.plan);
    CHECK(by_neighbours.plan->value == 400 + 40 + 7);
    CHECK(by_neighbours.plan->rings.size() == 1);
}

TEST_CASE("the same ring problem gives the same plan, and a stopped search keeps its promises") {
    std::mt19937 random(7);
    const RingProblem p = random_problem(random, {.vertices = 40, .cuts = 70, .stops = 15});
    const RingSolution one = solve(p, ample());
    const RingSolution two = solve(p, ample());
    REQUIRE(one.plan);
    REQUIRE(two.plan);
    CHECK(one.plan->value == two.plan->value);
    CHECK(one.bound == two.bound);
    CHECK(one.bound <= one.plan->value);
    SolveLimits none;
    none.seconds = 0;
    const RingSolution stopped = solve(p, none);
    REQUIRE(stopped.plan);
    CHECK(stopped.bound <= one.plan->value);
    CHECK(stopped.plan->value >= one.bound);
    CHECK(stopped.interrupted);
}
