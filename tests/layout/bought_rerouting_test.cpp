#include "layout/bought_rerouting.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

/// Two demands behind one edge of length 60, and an edge of length 40 that is dearer to open and leads to the first.
/// Cable is sold in steps of 50, so that one piece does there and two are needed here.
struct TwoWays {
    Scenario site = drawing::bare_site();
    graph::SharedCostProblem problem;

    explicit TwoWays(graph::Cost other_opening) {
        site.catalogue.cables = {drawing::cable(4, 1000)};
        site.catalogue.cables.front().factory_end_price = UnitPrice();
        site.catalogue.cables.front().length_step = Length::from_metres(50);
        problem.vertex_count = 3;
        problem.edges = {{0, 1, 30'000, 60'000, 0}, {1, 2, 10, 1'000, 0}, {0, 1, other_opening, 40'000, 0}};
        problem.demands = {{1, 1, 0}, {2, 1, 0}};
        problem.roots = {{0, 0}};
    }

    [[nodiscard]] graph::SharedCostPlan rerouted(double seconds = 60.0) const {
        BoughtCables cables{CostScale{1}, {}, {{0, {Money(), Money()}}}};
        for (int d = 0; d < 2; ++d)
            cables.demands.push_back({BoughtCable(site, 4), Money()});
        const graph::SharedCostPlan plan{0, {{0}, {0, 1}}, 0};
        return rerouted_as_bought(problem, cables, plan, graph::pair_routes::StopRule(seconds, nullptr));
    }
};

using Paths = std::vector<std::vector<graph::EdgeId>>;

}  // namespace

TEST_CASE("a cable goes another way where a step of length less pays for the trench there, and others follow") {
    // A step of 50 m costs 50,000: the first pays for the trench with it, and the second follows for nothing.
    const graph::SharedCostPlan plan = TwoWays(45'000).rerouted();
    CHECK(plan.paths == Paths{{2}, {2, 1}});
    CHECK(plan.value == 45'000 + 10 + 40'000 + 41'000);
}

TEST_CASE("where the trench costs more than the step, or no time is left, the plan stays as it was") {
    CHECK(TwoWays(60'000).rerouted().paths == Paths{{0}, {0, 1}});
    CHECK(TwoWays(45'000).rerouted(0.0).paths == Paths{{0}, {0, 1}});
}

}  // namespace spadework
