// What must not change, or must change in a known way, when a problem is put differently.

#include <algorithm>
#include <functional>
#include <numeric>

#include <doctest/doctest.h>

#include "graph/shared_cost_solver.hpp"
#include "graph/support/small_problems.hpp"

namespace spadework::graph {

namespace {

using testing::Dice;

struct Family {
    VertexId vertices = 30;
    int more_edges = 25;  ///< Beyond a tree.
    int demands = 7;
    std::int64_t most_passage = 0;
    int roots = 1;
};

/// A connected problem: a random tree and some edges more, parallel ones and loops among them.
SharedCostProblem connected_problem(const Family& family, Dice& dice) {
    SharedCostProblem problem;
    problem.vertex_count = family.vertices;
    const auto vertex = [&](VertexId below) { return static_cast<VertexId>(dice.upto(below - 1)); };
    const auto add = [&](VertexId tail, VertexId head) {
        problem.edges.push_back({tail, head, dice.upto(200), 1 + dice.upto(30), dice.upto(family.most_passage)});
    };
    for (VertexId v = 1; v < family.vertices; ++v)
        add(vertex(v), v);
    for (int e = 0; e < family.more_edges; ++e) {
        const VertexId tail = vertex(family.vertices);
        add(tail, vertex(family.vertices));
    }
    for (int d = 0; d < family.demands; ++d) {
        const VertexId at = vertex(family.vertices);
        problem.demands.push_back({at, 1 + dice.upto(4), 1});
    }
    for (int r = 0; r < family.roots; ++r) {
        const VertexId at = vertex(family.vertices);
        problem.roots.push_back({at, family.roots > 1 ? dice.upto(50) : 0});
    }
    return problem;
}

SharedCostSolution solved(const SharedCostProblem& problem) {
    const SharedCostSolution solution = solve(problem, {.seconds = 2.0});
    REQUIRE(solution.plan.has_value());
    CHECK(cost_of(problem, *solution.plan) == solution.plan->value);
    CHECK(solution.bound <= solution.plan->value);
    return solution;
}

using Variation = std::function<SharedCostProblem(const SharedCostProblem&, Dice&)>;

/// Holds the optimum of each varied problem to `factor` times the original's; at least `share` of all pairs must be
/// proved on both sides, so that the values themselves are held to each other.
void expect_same_optimum(const Family& family, const Variation& vary, Cost factor, double share) {
    Dice dice(77);
    constexpr int rounds = 25;
    int both_proved = 0;
    for (int round = 0; round < rounds; ++round) {
        CAPTURE(round);
        const SharedCostProblem problem = connected_problem(family, dice);
        const SharedCostSolution original = solved(problem);
        const SharedCostSolution varied = solved(vary(problem, dice));
        CHECK(varied.bound <= factor * original.plan->value);
        CHECK(factor * original.bound <= varied.plan->value);
        if (!original.optimal || !varied.optimal) continue;
        CHECK(varied.plan->value == factor * original.plan->value);
        ++both_proved;
    }
    MESSAGE(both_proved << " of " << rounds << " proved on both sides");
    CHECK(both_proved >= static_cast<int>(share * rounds));
}

/// Holds the optimum of each varied problem to no less than the original's.
void expect_no_lower_optimum(const Family& family, const Variation& vary) {
    Dice dice(78);
    for (int round = 0; round < 25; ++round) {
        CAPTURE(round);
        const SharedCostProblem problem = connected_problem(family, dice);
        const SharedCostSolution original = solved(problem);
        const SharedCostSolution varied = solved(vary(problem, dice));
        CHECK(original.bound <= varied.plan->value);
        if (varied.optimal) CHECK(original.bound <= varied.bound);
    }
}

const Family one_measure{};
const Family free_root{.roots = 9};
const Family two_measures{.most_passage = 40};

template <class Item>
void shuffle(std::vector<Item>& items, Dice& dice) {
    for (std::size_t i = items.size(); i > 1; --i)
        std::swap(items[i - 1], items[static_cast<std::size_t>(dice.upto(static_cast<std::int64_t>(i) - 1))]);
}

SharedCostProblem seven_times_as_dear(SharedCostProblem problem, Dice& /*dice*/) {
    for (SharedCostEdge& edge : problem.edges) {
        edge.opening *= 7;
        edge.passage *= 7;
    }
    for (Demand& demand : problem.demands)
        demand.weight *= 7;
    for (RootOption& root : problem.roots)
        root.cost *= 7;
    return problem;
}

SharedCostProblem a_thousand_times_finer_lengths(SharedCostProblem problem, Dice& /*dice*/) {
    for (SharedCostEdge& edge : problem.edges) {
        edge.opening *= 1000;
        edge.length *= 1000;
        edge.passage *= 1000;
    }
    for (RootOption& root : problem.roots)
        root.cost *= 1000;
    return problem;
}

SharedCostProblem renumbered(SharedCostProblem problem, Dice& dice) {
    std::vector<VertexId> name(static_cast<std::size_t>(problem.vertex_count));
    std::iota(name.begin(), name.end(), 0);
    shuffle(name, dice);
    for (SharedCostEdge& edge : problem.edges) {
        edge.tail = name[edge.tail];
        edge.head = name[edge.head];
        if (dice.upto(1) == 1) std::swap(edge.tail, edge.head);
    }
    for (Demand& demand : problem.demands)
        demand.at = name[demand.at];
    for (RootOption& root : problem.roots)
        root.at = name[root.at];
    shuffle(problem.edges, dice);
    shuffle(problem.demands, dice);
    shuffle(problem.roots, dice);
    return problem;
}

SharedCostProblem subdivided(SharedCostProblem problem, Dice& dice) {
    for (std::size_t e = 0, count = problem.edges.size(); e < count; e += 3) {
        SharedCostEdge& first = problem.edges[e];
        const SharedCostEdge whole = first;
        first.opening = dice.upto(whole.opening);
        first.length = dice.upto(whole.length);
        first.passage = dice.upto(whole.passage);
        first.head = problem.vertex_count;
        problem.edges.push_back({problem.vertex_count, whole.head, whole.opening - first.opening,
                                 whole.length - first.length, whole.passage - first.passage});
        ++problem.vertex_count;
    }
    return problem;
}

SharedCostProblem with_useless_edges(SharedCostProblem problem, Dice& dice) {
    for (std::size_t e = 0, count = problem.edges.size(); e < count; e += 2) {
        SharedCostEdge dearer = problem.edges[e];
        dearer.opening += 1 + dice.upto(9);
        dearer.length += dice.upto(3);
        if (dearer.passage > 0) dearer.passage += dice.upto(3);
        problem.edges.push_back(dearer);
    }
    for (int end = 0; end < 10; ++end) {
        const auto at = static_cast<VertexId>(dice.upto(problem.vertex_count - 1));
        problem.edges.push_back({at, problem.vertex_count, dice.upto(5), dice.upto(5), 0});
        ++problem.vertex_count;
    }
    return problem;
}

/// Some demands as two of half their weight each, or what comes nearest.
SharedCostProblem with_split_demands(SharedCostProblem problem, Dice& /*dice*/) {
    for (std::size_t d = 0, count = problem.demands.size(); d < count; d += 2) {
        Demand& first = problem.demands[d];
        const Demand second{first.at, first.weight / 2, 0};
        first.weight -= second.weight;
        problem.demands.push_back(second);
    }
    return problem;
}

SharedCostProblem with_one_demand_more(SharedCostProblem problem, Dice& dice) {
    const auto at = static_cast<VertexId>(dice.upto(problem.vertex_count - 1));
    problem.demands.push_back({at, dice.upto(4), 1});
    return problem;
}

SharedCostProblem with_one_edge_less(SharedCostProblem problem, Dice& /*dice*/) {
    problem.edges.pop_back();  // Not of the tree that connects all.
    return problem;
}

SharedCostProblem with_some_edges_dearer(SharedCostProblem problem, Dice& dice) {
    for (SharedCostEdge& edge : problem.edges) {
        if (dice.upto(3) == 0) edge.opening += dice.upto(100);
    }
    return problem;
}

}  // namespace

TEST_CASE("Seven times as dear in all is seven times the optimum") {
    expect_same_optimum(one_measure, seven_times_as_dear, 7, 0.9);
    expect_same_optimum(free_root, seven_times_as_dear, 7, 0.9);
    expect_same_optimum(two_measures, seven_times_as_dear, 7, 0.4);
}

TEST_CASE("Costs and lengths in a thousandth of the unit are a thousand times the optimum") {
    expect_same_optimum(one_measure, a_thousand_times_finer_lengths, 1000, 0.9);
    expect_same_optimum(free_root, a_thousand_times_finer_lengths, 1000, 0.9);
    expect_same_optimum(two_measures, a_thousand_times_finer_lengths, 1000, 0.4);
}

TEST_CASE("Other numbers for vertices, edges, demands and roots, and turned edges, leave the optimum") {
    expect_same_optimum(one_measure, renumbered, 1, 0.9);
    expect_same_optimum(free_root, renumbered, 1, 0.9);
    expect_same_optimum(two_measures, renumbered, 1, 0.4);
}

TEST_CASE("An edge in two pieces that together cost the same leaves the optimum") {
    expect_same_optimum(one_measure, subdivided, 1, 0.9);
    expect_same_optimum(free_root, subdivided, 1, 0.9);
    expect_same_optimum(two_measures, subdivided, 1, 0.4);
}

TEST_CASE("Dearer parallel edges and dead ends leave the optimum") {
    expect_same_optimum(one_measure, with_useless_edges, 1, 0.9);
    expect_same_optimum(free_root, with_useless_edges, 1, 0.9);
    expect_same_optimum(two_measures, with_useless_edges, 1, 0.4);
}

TEST_CASE("Two demands at one place cost what one of their joint weight costs") {
    expect_same_optimum(one_measure, with_split_demands, 1, 0.9);
    expect_same_optimum(free_root, with_split_demands, 1, 0.9);
}

TEST_CASE("A demand more, an edge less or dearer edges never lower the optimum") {
    for (const Variation& vary :
         {Variation(with_one_demand_more), Variation(with_one_edge_less), Variation(with_some_edges_dearer)}) {
        expect_no_lower_optimum(one_measure, vary);
        expect_no_lower_optimum(free_root, vary);
        expect_no_lower_optimum(two_measures, vary);
    }
}

TEST_CASE("The value at the optimum does not depend on the random seed or the number of threads") {
    Dice dice(79);
    for (int round = 0; round < 10; ++round) {
        const SharedCostProblem problem = connected_problem(free_root, dice);
        const SharedCostSolution one = solve(problem, {.seconds = 2.0, .threads = 1, .seed = 1});
        const SharedCostSolution two = solve(problem, {.seconds = 2.0, .threads = 2, .seed = 1});
        const SharedCostSolution other_seed = solve(problem, {.seconds = 2.0, .threads = 1, .seed = 9});
        REQUIRE((one.plan && two.plan && other_seed.plan));
        CHECK(one.plan->paths == two.plan->paths);
        CHECK(one.bound == two.bound);
        if (one.optimal && other_seed.optimal) CHECK(one.plan->value == other_seed.plan->value);
        CHECK(other_seed.bound <= one.plan->value);
    }
}

}  // namespace spadework::graph
