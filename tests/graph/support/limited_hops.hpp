#pragma once

// Solvers of routes whose hops may only be so long, against the exhaustive optimum.

#include <random>

#include <doctest/doctest.h>

#include "graph/shared_cost_solver.hpp"
#include "support/effort.hpp"

namespace spadework::graph::testing {

/// How many problems there were of each kind.
struct LimitedRuns {
    int bitten = 0;  ///< The limit makes the optimum dearer.
    int possible = 0;
    int planned = 0;
    int found = 0;  ///< The optimum.
};

/// One problem: `optimum` gives that of a problem, `never` where there is no plan.
template <class Problem, class Optimum>
void check_limited(const Problem& p, const SolveLimits& limits, Optimum optimum, Cost never, LimitedRuns& runs) {
    Problem unlimited = p;
    unlimited.span_of.clear();
    const Cost best = optimum(p);
    const Cost without_limit = optimum(unlimited);
    const auto s = solve(p, limits);
    REQUIRE(s.bound <= without_limit);
    REQUIRE(s.plan.has_value() != s.with_long_hops.has_value());
    runs.bitten += best > without_limit ? 1 : 0;
    runs.possible += best < never ? 1 : 0;
    if (!s.plan) {
        REQUIRE(cost_of(unlimited, *s.with_long_hops) == s.with_long_hops->value);
        REQUIRE(!cost_of(p, *s.with_long_hops));
        return;
    }
    REQUIRE(best < never);
    REQUIRE(s.plan->value >= best);
    REQUIRE(cost_of(p, *s.plan) == s.plan->value);
    ++runs.planned;
    runs.found += s.plan->value == best ? 1 : 0;
}

/// Problems that `make` draws, some of which have no plan: the optimum is found of so great a share of the others.
template <class Make, class Optimum>
void check_limited_family(int rounds, double least_share_found, const SolveLimits& limits, Make make, Optimum optimum,
                          Cost never) {
    const int many = effort(rounds);
    std::mt19937 random(20261126);
    LimitedRuns runs;
    for (int run = 0; run < many; ++run) {
        CAPTURE(run);
        check_limited(make(random), limits, optimum, never, runs);
    }
    MESSAGE("the limit bites in " << runs.bitten << " of " << many << ", plans exist in " << runs.possible
                                  << ", found in " << runs.planned << ", the optimum in " << runs.found);
    CHECK(runs.bitten * 4 >= many);
    CHECK(runs.possible < many);
    CHECK(runs.planned >= 0.95 * runs.possible);
    CHECK(runs.found >= least_share_found * runs.possible);
}

}  // namespace spadework::graph::testing
