#include "graph/ring_search.hpp"

#include <random>

#include <doctest/doctest.h>

#include "graph/ring_links.hpp"

namespace {

using namespace spadework::graph;

/// Two stops (1 and 2), each with a way of its own to the source (0) and one over a junction (3), to which two
/// stretches lead: one that is cheaper for one cable, another that is cheaper for two.
RingProblem two_stretches() {
    RingProblem p;
    p.vertex_count = 4;
    p.edges = {{0, 3, 80, 50, 0}, {0, 3, 120, 20, 0}, {3, 1, 10, 70, 0},
               {3, 2, 10, 70, 0}, {0, 1, 10, 60, 0},  {0, 2, 10, 60, 0}};
    p.cut_of = {0, 1, 2, 3, 4, 5};
    p.stops = {1, 2};
    p.weight = 1;
    return p;
}

/// Corners of a square joined to those beside, above and below, at random openings, with stops on every third.
RingProblem random_square(std::uint64_t random_seed) {
    constexpr VertexId kSide = 9;
    std::mt19937_64 random(random_seed);
    RingProblem p;
    p.vertex_count = kSide * kSide;
    const auto join = [&](VertexId a, VertexId b) {
        p.cut_of.push_back(static_cast<std::int32_t>(p.edges.size()));
        p.edges.push_back({a, b, static_cast<Cost>(50 + random() % 200), static_cast<Length>(1 + random() % 9), 0});
    };
    for (VertexId v = 0; v < p.vertex_count; ++v) {
        if (v % kSide + 1 < kSide) join(v, v + 1);
        if (v + kSide < p.vertex_count) join(v, v + kSide);
        if (v % 3 == 1) p.stops.push_back(v);
    }
    p.weight = 1;
    p.ring_cost = 20;
    p.longest_ring = 4;
    return p;
}

Cost priced_anew(const rings::LinkNetwork& network, const rings::Rounds& rounds, Cost ring_cost) {
    std::vector<std::int64_t> cables(network.links.size(), 0);
    Cost sum = 0;
    for (const rings::Round& round : rounds) {
        sum += ring_cost;
        for (const rings::LinkPath& hop : round.hops) {
            for (const std::int32_t l : hop)
                ++cables[l];
        }
    }
    for (std::size_t l = 0; l < cables.size(); ++l)
        sum += network.links[l].cost(cables[l]);
    return sum;
}

}  // namespace

TEST_CASE("cables of two rings leave a stretch together for one that neither would take alone") {
    const RingProblem p = two_stretches();
    const auto network = rings::link_network(p);
    REQUIRE(network);
    const pair_routes::StopRule time(60, nullptr);
    rings::Search search(*network, {0, 1}, time, 1);
    search.construct();
    CHECK(search.cost() == 2 * 70 + 2 * 80 + 80 + 2 * 50);
    search.improve();
    CHECK(search.cost() == 2 * 70 + 2 * 80 + 120 + 2 * 20);
}

TEST_CASE("what a search for rings says that its plan costs is what its hops cost when priced anew") {
    for (std::uint64_t run = 1; run <= 4; ++run) {
        CAPTURE(run);
        const RingProblem p = random_square(run);
        const auto network = rings::link_network(p);
        REQUIRE(network);
        const pair_routes::StopRule time(60, nullptr);
        rings::Search search(*network, {p.ring_cost, p.longest_ring}, time, run);
        search.construct();
        const Cost constructed = search.cost();
        CHECK(constructed == priced_anew(*network, search.rounds(), p.ring_cost));
        search.improve();
        const Cost improved = search.cost();
        CHECK(improved <= constructed);
        CHECK(improved == priced_anew(*network, search.rounds(), p.ring_cost));
        search.shake(100);
        CHECK(search.cost() < improved);
        CHECK(search.cost() == priced_anew(*network, search.rounds(), p.ring_cost));
    }
}
