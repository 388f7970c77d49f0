// Trees: built, tidied and improved, they always join all terminals at the cost they say.

#include "graph/steiner_tree.hpp"

#include <doctest/doctest.h>

#include "graph/support/small_steiner.hpp"
#include "support/effort.hpp"

namespace spadework::graph::steiner {

using testing::Dice;
using testing::least_tree;
using testing::SteinerCase;

namespace {

std::vector<Cost> costs_of(const Network& network) {
    std::vector<Cost> lengths;
    for (std::int32_t h = 0; h < network.half_count(); ++h)
        lengths.push_back(network.half(h).cost);
    return lengths;
}

/// Joins all terminals, has no cycle, and costs what it says.
void check_tree(const Network& network, const Tree& tree) {
    Cost cost = 0;
    std::vector<InputEdge> edges;
    for (const std::int32_t h : tree.halves) {
        edges.push_back({network.at(h), network.half(h).to, network.half(h).cost});
        cost += network.half(h).cost;
    }
    CHECK(cost == tree.cost);
    CHECK(least_tree(network.vertex_count(), edges, network.terminals()) == cost);
}

}  // namespace

TEST_CASE("trees join all terminals, and local search never makes them dearer") {
    Dice dice(31);
    int best = 0;
    int tried = 0;
    for (int i = 0; i < effort(1500); ++i) {
        CAPTURE(i);
        const SteinerCase made = testing::random_steiner({18, 34, 6, 30, true}, dice);
        const Graph graph(made.vertices, made.edges, made.terminals);
        const Network network(graph);
        auto tree =
            joined_by_nearest(network, static_cast<VertexId>(dice.upto(network.vertex_count() - 1)), costs_of(network));
        REQUIRE(tree.has_value());
        const Cost before = tree->cost;
        exchange_paths(network, *tree, {});
        check_tree(network, *tree);
        CHECK(tree->cost <= before);
        best += tree->cost == least_tree(made) ? 1 : 0;
        ++tried;
    }
    MESSAGE(best << " of " << tried << " cheapest");
    CHECK(best > tried * 7 / 10);
}

TEST_CASE("no tree is built where a terminal is cut off") {
    const Graph graph(4, {{0, 1, 1}, {2, 3, 1}}, {0, 3});
    const Network network(graph);
    CHECK_FALSE(joined_by_nearest(network, network.terminals().front(), costs_of(network)).has_value());
}

TEST_CASE("local search swaps a dear key path for a cheap way round") {
    // Terminals 0 and 2; the straight way costs 10, the way round 3.
    const Graph graph(4, {{0, 1, 5}, {1, 2, 5}, {0, 3, 1}, {3, 2, 2}}, {0, 2});
    const Network network(graph);
    Tree tree;
    for (std::int32_t h = 0; h < network.half_count(); ++h) {
        if (network.half(h).cost == 5 && network.half(h).twin > h) tree.halves.push_back(h);
    }
    tree.cost = 10;
    exchange_paths(network, tree, {});
    CHECK(tree.cost == 3);
}

}  // namespace spadework::graph::steiner
