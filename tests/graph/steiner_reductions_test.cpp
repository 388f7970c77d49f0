// Every reduction alone keeps a cheapest tree, and every tree of what is left leads back to one of the input that costs
// no more.

#include "graph/steiner_reductions.hpp"

#include <functional>

#include <doctest/doctest.h>

#include "graph/steiner_ascent.hpp"
#include "graph/steiner_bound_tests.hpp"
#include "graph/steiner_tree.hpp"
#include "graph/support/small_steiner.hpp"
#include "support/effort.hpp"

namespace spadework::graph::steiner {

using testing::Dice;
using testing::least_tree;
using testing::random_steiner;
using testing::SteinerCase;
using testing::SteinerShape;

namespace {

WorkerTeam& team() {
    static WorkerTeam one(1);
    return one;
}

/// Cost of the input edges that a tree of the graph leads back to; -1 when they do not join the terminals.
Cost cost_led_back(const SteinerCase& made, const Graph& graph) {
    const Network network(graph);
    std::vector<EdgeId> edges;
    if (network.terminals().size() > 1) {
        std::vector<Cost> lengths;
        for (std::int32_t h = 0; h < network.half_count(); ++h)
            lengths.push_back(network.half(h).cost);
        const auto tree = joined_by_nearest(network, network.terminals().front(), lengths);
        if (!tree) return -1;
        for (const std::int32_t h : tree->halves)
            edges.push_back(network.edge_in_graph(h));
    }
    std::vector<InputEdge> used;
    Cost cost = 0;
    for (const EdgeId e : graph.input_edges(edges)) {
        used.push_back(made.edges[e]);
        cost += made.edges[e].cost;
    }
    return least_tree(made.vertices, used, made.terminals) >= testing::kNoTree ? -1 : cost;
}

Cost cost_of_some_tree(const Graph& graph) {
    const Network network(graph);
    if (network.terminals().size() < 2) return graph.fixed_cost();
    std::vector<Cost> lengths;
    for (std::int32_t h = 0; h < network.half_count(); ++h)
        lengths.push_back(network.half(h).cost);
    return joined_by_nearest(network, network.terminals().front(), lengths)->cost + graph.fixed_cost();
}

const std::vector<SteinerShape> kShapes{{10, 18, 5, 20, true},   {14, 24, 6, 3, true}, {9, 30, 4, 9, true},
                                        {16, 26, 7, 1000, true}, {12, 15, 4, 6, true}, {8, 20, 8, 10, true}};

/// Runs the reduction on many random problems; it must take something at least once in a while.
void keeps_optimum(const std::function<void(Graph&)>& reduce, int rounds, std::uint64_t seed) {
    Dice dice(seed);
    int smaller = 0;
    for (int i = 0; i < rounds; ++i) {
        CAPTURE(i);
        const SteinerCase made = random_steiner(kShapes[i % kShapes.size()], dice);
        Graph graph(made.vertices, made.edges, made.terminals);
        const std::size_t before = graph.live_edges();
        reduce(graph);
        REQUIRE(least_tree(graph) == least_tree(made));
        const Cost back = cost_led_back(made, graph);
        CHECK(back >= least_tree(made));
        CHECK(back <= cost_of_some_tree(graph));
        smaller += graph.live_edges() < before ? 1 : 0;
    }
    MESSAGE(smaller << " of " << rounds << " made smaller");
    CHECK(smaller > rounds / 50);
}

}  // namespace

TEST_CASE("settling degrees keeps the optimum") {
    keeps_optimum([](Graph& graph) { settle_degrees(graph); }, 1200, 21);
}

TEST_CASE("erasing edges longer than special distances keeps the optimum") {
    keeps_optimum([](Graph& graph) { erase_long_edges(graph, team()); }, 1200, 22);
}

TEST_CASE("eliminating bypassed vertices keeps the optimum") {
    keeps_optimum([](Graph& graph) { eliminate_bypassed(graph, team(), 6); }, 1200, 23);
    keeps_optimum([](Graph& graph) { eliminate_bypassed(graph, team(), 3); }, 600, 24);
}

TEST_CASE("contracting sure edges keeps the optimum") {
    keeps_optimum([](Graph& graph) { contract_sure_edges(graph); }, 1200, 25);
}

TEST_CASE("all reductions in any order keep the optimum") {
    Dice order(26);
    keeps_optimum(
        [&](Graph& graph) {
            for (int step = 0; step < 12; ++step) {
                switch (order.upto(3)) {
                    case 0:
                        settle_degrees(graph);
                        break;
                    case 1:
                        erase_long_edges(graph, team());
                        break;
                    case 2:
                        eliminate_bypassed(graph, team(), 5);
                        break;
                    default:
                        contract_sure_edges(graph);
                        break;
                }
            }
        },
        1500, 26);
}

TEST_CASE("parts without terminals are erased and nothing else") {
    Graph graph(6, {{0, 1, 2}, {1, 2, 2}, {3, 4, 1}, {4, 5, 1}}, {0, 2});
    erase_cut_off(graph);
    CHECK(graph.live_edges() == 2);
    CHECK(least_tree(graph) == 4);
}

TEST_CASE("what an ascent rules out is needed by no tree below the limit") {
    Dice dice(27);
    int taken = 0;
    for (int i = 0; i < effort(3000); ++i) {
        CAPTURE(i);
        const SteinerCase made = random_steiner(kShapes[i % kShapes.size()], dice);
        const Cost optimum = least_tree(made);
        Graph graph(made.vertices, made.edges, made.terminals);
        const Network network(graph);
        if (network.terminals().size() < 2) continue;
        // Limits at the optimum let everything go, limits above it must keep it.
        const Cost limit = optimum + dice.upto(4);
        Findings findings(network);
        for (int ascents = 0; ascents < 3; ++ascents) {
            AscentChoice choice;
            choice.root = network.terminals()[dice.upto(static_cast<int>(network.terminals().size()) - 1)];
            if (ascents == 1) {
                choice.guide.assign(network.half_count(), 0);
                for (char& mark : choice.guide)
                    mark = dice.upto(1) == 1;
            }
            const Ascent ascent = ascend(network, choice);
            CHECK(ascent.bound <= optimum);
            findings.add(network, {ascent.root, ascent.rest, limit - ascent.bound});
        }
        taken += findings.apply(network, graph) > 0 ? 1 : 0;
        const Cost left = least_tree(graph);
        CHECK(left >= optimum);
        if (limit > optimum) CHECK(left == optimum);
    }
    MESSAGE(taken << " made smaller");
    CHECK(taken > effort(500));
}

}  // namespace spadework::graph::steiner
