#include "graph/passing_vertices.hpp"

#include <random>

#include <doctest/doctest.h>

#include "support/effort.hpp"

namespace spadework::graph {
namespace {

/// What a path pays, each edge's figures weighed so that none is mistaken for another.
Cost weighed(std::span<const SharedCostEdge> edges, std::span<const EdgeId> path) {
    Cost sum = 0;
    for (const EdgeId e : path)
        sum += edges[e].opening * 1'000'000 + edges[e].length * 1'000 + edges[e].passage;
    return sum;
}

/// Where a path that starts at `from` ends; -1 when its edges do not join.
VertexId end_of(std::span<const SharedCostEdge> edges, std::span<const EdgeId> path, VertexId from) {
    for (const EdgeId e : path) {
        if (edges[e].tail != from && edges[e].head != from) return -1;
        from = edges[e].tail == from ? edges[e].head : edges[e].tail;
    }
    return from;
}

}  // namespace

TEST_CASE("a chain between kept vertices becomes one edge that costs what the chain does") {
    const std::vector<SharedCostEdge> edges = {{0, 1, 5, 10, 1}, {2, 1, 7, 20, 2}, {2, 3, 9, 30, 3}};
    const JoinedNetwork joined = without_passing_vertices(4, edges, {1, 0, 0, 1});
    REQUIRE(joined.edges.size() == 1);
    CHECK(joined.vertices == std::vector<VertexId>{0, 3});
    CHECK(joined.edges[0].opening == 21);
    CHECK(joined.edges[0].length == 60);
    CHECK(joined.edges[0].passage == 6);
    CHECK(joined.expanded(std::vector<EdgeId>{0}, 0) == std::vector<EdgeId>{0, 1, 2});
    CHECK(joined.expanded(std::vector<EdgeId>{0}, 1) == std::vector<EdgeId>{2, 1, 0});
    CHECK(joined.against[0] == std::vector<char>{0, 1, 0});
}

TEST_CASE("dead ends, loops and rings that lead nowhere vanish; kept dead ends stay") {
    const std::vector<SharedCostEdge> edges = {{0, 1, 1, 1, 0}, {1, 2, 1, 1, 0}, {2, 3, 1, 1, 0}, {1, 1, 1, 1, 0},
                                               {0, 4, 1, 1, 0}, {5, 6, 1, 1, 0}, {6, 5, 2, 2, 0}};
    const JoinedNetwork joined = without_passing_vertices(7, edges, {1, 0, 0, 0, 1, 0, 0});
    CHECK(joined.vertices == std::vector<VertexId>{0, 4});
    CHECK(joined.chains == std::vector<std::vector<EdgeId>>{{4}});
    CHECK(joined.number == std::vector<VertexId>{0, -1, -1, -1, 1, -1, -1});
}

TEST_CASE("every edge of a joined random network stands for a path of the original that joins the same vertices") {
    std::mt19937 random(7);
    for (int round = 0; round < effort(500); ++round) {
        const auto below = [&](std::uint32_t n) { return static_cast<VertexId>(random() % n); };
        const VertexId count = 2 + below(12);
        std::vector<SharedCostEdge> edges;
        for (VertexId e = 0; e < count + below(4); ++e) {
            edges.push_back({below(static_cast<std::uint32_t>(count)), below(static_cast<std::uint32_t>(count)),
                             below(9), below(9), below(9)});
        }
        std::vector<char> kept(static_cast<std::size_t>(count), 0);
        for (char& k : kept)
            k = below(3) == 0 ? 1 : 0;
        const JoinedNetwork joined = without_passing_vertices(count, edges, kept);
        for (VertexId v = 0; v < count; ++v)
            CHECK((!kept[v] || joined.number[v] >= 0));
        for (std::size_t e = 0; e < joined.edges.size(); ++e) {
            const SharedCostEdge& edge = joined.edges[e];
            const std::vector<EdgeId> one{static_cast<EdgeId>(e)};
            const auto path = joined.expanded(one, edge.tail);
            CHECK(end_of(edges, path, joined.vertices[edge.tail]) == joined.vertices[edge.head]);
            CHECK(weighed(edges, path) == weighed(joined.edges, one));
        }
    }
}

TEST_CASE("a chain of 300,000 vertices is joined without running out of stack") {
    std::vector<SharedCostEdge> edges;
    for (VertexId v = 0; v < 300'000; ++v)
        edges.push_back({v, v + 1, 1, 1, 1});
    std::vector<char> kept(300'001, 0);
    kept.front() = kept.back() = 1;
    const JoinedNetwork joined = without_passing_vertices(300'001, edges, kept);
    REQUIRE(joined.edges.size() == 1);
    CHECK(joined.edges[0].length == 300'000);
    kept.back() = 0;
    CHECK(without_passing_vertices(300'001, edges, kept).edges.empty());
}

}  // namespace spadework::graph
