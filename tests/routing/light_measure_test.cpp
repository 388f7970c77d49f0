#include "routing/light_measure.hpp"

#include <algorithm>
#include <functional>

#include <doctest/doctest.h>

#include "graph/saturating.hpp"
#include "graph/shared_cost_solver.hpp"
#include "layout/support/drawn_site.hpp"
#include "routing/one_measure.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using graph::Cost;

/// Lengths and passages mostly in one proportion, some ways dearer or cheaper to pass; one demand far heavier.
graph::SharedCostProblem random_problem(Dice& dice) {
    graph::SharedCostProblem problem;
    problem.vertex_count = static_cast<graph::VertexId>(dice.between(3, 6));
    for (int e = 0; e < 9; ++e) {
        const bool tree = e + 1 < problem.vertex_count;
        const auto head = static_cast<graph::VertexId>(tree ? e + 1 : dice.between(0, problem.vertex_count - 1));
        const auto tail =
            static_cast<graph::VertexId>(tree ? dice.between(0, e) : dice.between(0, problem.vertex_count - 1));
        const graph::Length length = dice.between(0, 3000);
        const Cost passage = dice.one_in(3) ? dice.between(0, 12) * length / 2 : 3 * length;
        problem.edges.push_back({tail, head, dice.between(0, 40'000), length, passage});
    }
    const auto demands = dice.between(1, 3);
    for (int d = 0; d < demands; ++d) {
        problem.demands.push_back({static_cast<graph::VertexId>(dice.between(0, problem.vertex_count - 1)),
                                   dice.between(1, 4), dice.between(0, 2)});
    }
    problem.demands.push_back({static_cast<graph::VertexId>(problem.vertex_count - 1), dice.between(8, 20), 1});
    for (graph::VertexId v = 0; v < 2; ++v)
        problem.roots.push_back({v, dice.between(0, 500)});
    return problem;
}

using EveryPath = std::function<void(const std::vector<graph::EdgeId>&)>;

void for_each_path(const graph::SharedCostProblem& problem, graph::VertexId from, graph::VertexId to,
                   const EveryPath& use) {
    std::vector<char> seen(static_cast<std::size_t>(problem.vertex_count), 0);
    std::vector<graph::EdgeId> path;
    const std::function<void(graph::VertexId)> walk = [&](graph::VertexId at) {
        if (at == to) return use(path);
        seen[static_cast<std::size_t>(at)] = 1;
        for (std::size_t e = 0; e < problem.edges.size(); ++e) {
            const graph::SharedCostEdge& edge = problem.edges[e];
            if (edge.tail != at && edge.head != at) continue;
            const graph::VertexId next = edge.tail == at ? edge.head : edge.tail;
            if (seen[static_cast<std::size_t>(next)]) continue;
            path.push_back(static_cast<graph::EdgeId>(e));
            walk(next);
            path.pop_back();
        }
        seen[static_cast<std::size_t>(at)] = 0;
    };
    walk(from);
}

Cost charge(const graph::Demand& demand, const graph::SharedCostProblem& problem,
            const std::vector<graph::EdgeId>& path) {
    Cost sum = 0;
    for (const graph::EdgeId e : path)
        sum += graph::path_charge(demand, problem.edges[static_cast<std::size_t>(e)]);
    return sum;
}

}  // namespace

TEST_CASE(
    "no path of any demand is charged more in the light measure, with what is left out of all ways from the root") {
    Dice dice(71);
    int measured = 0;
    int left_out_of = 0;
    for (int round = 0; round < 800; ++round) {
        CAPTURE(round);
        const graph::SharedCostProblem problem = random_problem(dice);
        const auto sketched = graph::sketch(problem, {});
        REQUIRE(sketched.plan);
        const auto light = in_light_measure(problem, *sketched.plan, 0);
        if (!light) continue;
        ++measured;
        const auto cost = graph::cost_of(light->problem, *sketched.plan);
        REQUIRE(cost);
        CHECK(*cost <= *graph::cost_of(problem, *sketched.plan));
        for (std::size_t r = 0; r < problem.roots.size(); ++r) {
            Cost all = problem.roots[r].cost;
            for (std::size_t d = 0; d < problem.demands.size(); ++d) {
                const Cost left = light->left_out[d].empty() ? 0 : light->left_out[d][r];
                left_out_of += left > 0 ? 1 : 0;
                all += left;
                for_each_path(problem, problem.roots[r].at, problem.demands[d].at, [&](const auto& path) {
                    const Cost charged = charge(light->problem.demands[d], light->problem, path) + left;
                    CHECK(charged <= charge(problem.demands[d], problem, path));
                });
            }
            CHECK(light->problem.roots[r].cost == all);
        }
    }
    CHECK(measured > 300);
    CHECK(left_out_of > 300);
}

TEST_CASE("where a light cable pays for a dear way and a heavy one does not use it, the light measure counts it all") {
    // The heavy cable runs 0-1 only; the light ones cross a way from 1 to 2 that charges each 1000 more to pass.
    graph::SharedCostProblem problem;
    problem.vertex_count = 3;
    problem.edges = {{0, 1, 100, 1000, 2000}, {1, 2, 100, 1000, 3000}};
    problem.demands = {{2, 1, 1}, {2, 1, 1}, {1, 9, 1}};
    problem.roots = {{0, 0}};
    const graph::SharedCostPlan plan{0, {{0, 1}, {0, 1}, {0}}, 0};
    const Cost full = *graph::cost_of(problem, plan);
    const Cost in_one = *graph::cost_of(in_one_measure(problem).problem, plan);
    const auto light = in_light_measure(problem, plan, in_one);
    REQUIRE(light);
    CHECK(full - in_one > 1000);
    CHECK(full - *graph::cost_of(light->problem, plan) < 10);
    CHECK_FALSE(in_light_measure(problem, plan, full));
}

TEST_CASE("cables that all measure alike have no lighter measure") {
    graph::SharedCostProblem problem;
    problem.vertex_count = 2;
    problem.edges = {{0, 1, 100, 1000, 2000}};
    problem.demands = {{1, 2, 1}, {1, 4, 2}};
    problem.roots = {{0, 0}};
    CHECK_FALSE(in_light_measure(problem, {0, {{0}, {0}}, 0}, 0));
}

}  // namespace spadework
