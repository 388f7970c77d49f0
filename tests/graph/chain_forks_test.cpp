#include "graph/chain_forks.hpp"

#include <doctest/doctest.h>

#include "graph/support/small_chains.hpp"

namespace {

using namespace spadework::graph;
using namespace spadework::graph::testing;

/// Distances between all vertices of the joined edges by what one cable pays.
std::vector<std::vector<double>> joined_distances(const chains::ForkNetwork& forks) {
    const auto n = static_cast<std::size_t>(forks.vertex_count);
    std::vector<std::vector<double>> d(n, std::vector<double>(n, 1e18));
    for (std::size_t v = 0; v < n; ++v)
        d[v][v] = 0;
    for (const auto& edge : forks.edges) {
        const auto a = static_cast<std::size_t>(edge.tail);
        const auto b = static_cast<std::size_t>(edge.head);
        d[a][b] = d[b][a] = std::min(d[a][b], edge.charge);
    }
    for (std::size_t k = 0; k < n; ++k) {
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j)
                d[i][j] = std::min(d[i][j], d[i][k] + d[k][j]);
        }
    }
    return d;
}

}  // namespace

TEST_CASE("joining edges keeps every distance between source and stops") {
    std::mt19937 random(5);
    for (int run = 0; run < 100; ++run) {
        CAPTURE(run);
        const ChainProblem p = random_problem(random, {.vertices = 14, .edges = 17, .stops = 3});
        const chains::ForkNetwork forks = chains::forks_of(p);
        const auto before = distances(p, (1U << p.edges.size()) - 1);
        const auto after = joined_distances(forks);
        for (std::size_t s = 0; s < p.stops.size(); ++s) {
            CHECK(after[static_cast<std::size_t>(forks.source)][static_cast<std::size_t>(forks.stops[s])] ==
                  doctest::Approx(static_cast<double>(before[p.source][p.stops[s]])));
            for (std::size_t t = 0; t < s; ++t) {
                CHECK(after[static_cast<std::size_t>(forks.stops[t])][static_cast<std::size_t>(forks.stops[s])] ==
                      doctest::Approx(static_cast<double>(before[p.stops[t]][p.stops[s]])));
            }
        }
        CHECK(forks.edges.size() <= p.edges.size());
    }
}

TEST_CASE("a joined edge lists what it is made of from tail to head, and dead ends and rings are left out") {
    ChainProblem p;  // 0 -- 1 -- 2 with 2 -- 3 -- 4 -- 2 a ring and 1 -- 5 a dead end.
    p.vertex_count = 6;
    p.edges = {{1, 0, 10, 1, 0}, {1, 2, 20, 2, 0}, {2, 3, 5, 1, 0}, {3, 4, 5, 1, 0}, {4, 2, 5, 1, 0}, {1, 5, 7, 1, 0}};
    p.stops = {2};
    p.weight = 3;
    const chains::ForkNetwork forks = chains::forks_of(p);
    REQUIRE(forks.edges.size() == 1);
    const chains::JoinedEdge& edge = forks.edges[0];
    CHECK(edge.opening == 30.0);
    CHECK(edge.charge == 9.0);
    const std::vector<ArcId> outwards{1, 2};  // Edge 0 from head to tail, edge 1 from tail to head.
    const std::vector<ArcId> inwards{3, 0};
    CHECK(edge.arcs == (edge.tail == forks.source ? outwards : inwards));
}
