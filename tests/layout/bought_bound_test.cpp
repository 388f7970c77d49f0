#include "layout/bought_bound.hpp"

#include <doctest/doctest.h>

#include "layout/assembly.hpp"
#include "layout/design.hpp"
#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

/// A hub, a street and a building at its end; cable in steps of 50 m, joints beyond 200 m.
Scenario street(double metres) {
    Scenario site = drawing::row_site(1, metres);
    site.catalogue.cables = {drawing::cable(4, 90)};
    site.catalogue.cables.front().length_step = Length::from_metres(50);
    site.catalogue.cables.front().longest = Length::from_metres(200);
    return site;
}

}  // namespace

TEST_CASE("where there is one way only, the bound knows the steps in which cable is sold and its joints") {
    for (const double metres : {1.0, 49.0, 51.0, 163.0, 199.0, 230.0, 617.0}) {
        const Scenario site = street(metres);
        const Design design = spadework::design(LayoutKind::home_runs, site, {});
        REQUIRE(design.plan);
        const Money cost = cost_to_build(site, *design.plan);
        CHECK(design.direct_bound <= cost);
        CHECK(cost - design.direct_bound <= Money::from_minor(20));
    }
}

TEST_CASE("a rough answer does not look at what cables are bought for") {
    const Scenario site = street(51);
    const Design rough = spadework::design(LayoutKind::home_runs, site, {.target_gap = 1});
    const Design close = spadework::design(LayoutKind::home_runs, site, {});
    CHECK(rough.direct_bound < close.direct_bound);
}

namespace {

/// Two demands at the ends of an edge of a length, each with a way of its own to the root that is cheap for it alone,
/// so that prices on the edge run against each other. What is bought beyond charges counts up to what the edge weighs.
struct Contest {
    Scenario site = drawing::bare_site();
    graph::SharedCostProblem problem;
    MeasuredSolution solution;

    explicit Contest(graph::Length between) {
        site.catalogue.cables = {drawing::cable(4, 1)};
        site.catalogue.cables.front().length_step = Length::from_metres(1000);
        problem.vertex_count = 3;
        problem.edges = {{0, 1, 50, 10, 0}, {0, 2, 50, 10, 0}, {1, 2, 40, between, 0}};
        problem.demands = {{1, 1, 0}, {2, 1, 0}};
        problem.roots = {{0, 0}};
        graph::SharedCostCertificate certificate;
        certificate.prices = {{{0, 50, false}, {2, 40, true}}, {{1, 50, false}, {2, 40, false}}};
        const auto bounds = graph::bound_proved(problem, certificate);
        solution.proofs.push_back({problem, certificate, {}});
        solution.root_bounds = *bounds;
        solution.bound = bounds->front();
        solution.plan = graph::SharedCostPlan{0, {{0}, {1}}, 120};
    }

    /// What is counted for the first demand already may leave nothing to count beyond that.
    graph::Cost raised_by(Money counted_for_first = Money()) {
        const graph::Cost before = solution.bound;
        BoughtCables cables{CostScale{1}, {}, {{0, {counted_for_first, Money()}}}};
        for (int d = 0; d < 2; ++d)
            cables.demands.push_back({BoughtCable(site, 4), Money::from_minor(1)});
        raise_by_bought_cables(problem, cables, graph::pair_routes::StopRule(60.0, nullptr), solution);
        return solution.bound - before;
    }
};

}  // namespace

TEST_CASE("what is bought beyond charges counts up to the weight of an edge priced both ways, twice that for two") {
    CHECK(Contest(7).raised_by() == 2 * 6);
    CHECK(Contest(1).raised_by() == 0);
    CHECK(Contest(100).raised_by() == 2 * 99);
    CHECK(Contest(0).raised_by() == 0);
    CHECK(Contest(7).raised_by(Money::from_minor(1'000'000)) == 13);
}

}  // namespace spadework
