// Choosing sites on a tree: bounds of additions, and tables of a few sites alone.

#include "graph/two_level_siting.hpp"

#include <algorithm>
#include <random>

#include <doctest/doctest.h>

namespace {

using namespace spadework::graph;
using namespace spadework::graph::two_level;

/// A star of chains with a site at every vertex, as a tree that is the whole network.
TwoLevelProblem drawn(std::mt19937& random, bool direct) {
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    TwoLevelProblem p;
    p.vertex_count = 14;
    for (VertexId v = 1; v < p.vertex_count; ++v)
        p.edges.push_back({v, below(v), below(100), 1 + below(30), 0});
    for (int d = 0; d < 8; ++d) {
        TwoLevelDemand demand{below(p.vertex_count), 3, 1, 1 + below(3), std::nullopt};
        if (direct) demand.direct = DirectService{4, 1, -2};
        p.demands.push_back(demand);
    }
    for (VertexId v = 0; v < p.vertex_count; ++v)
        p.sites.push_back({v, below(60)});
    p.sizes = {{4, 2, 1, 10}, {9, 3, 1, 30}, {30, 5, 1, 80}};
    p.most_sites = 3;
    return p;
}

std::vector<EdgeId> all_edges(const TwoLevelProblem& p) {
    std::vector<EdgeId> edges;
    for (std::size_t e = 0; e < p.edges.size(); ++e)
        edges.push_back(static_cast<EdgeId>(e));
    return edges;
}

}  // namespace

TEST_CASE("no assignment with one more site costs less than is said of it") {
    std::mt19937 random(11);
    for (int round = 0; round < 60; ++round) {
        const TwoLevelProblem p = drawn(random, round % 2 == 1);
        const pair_routes::Network network(p.vertex_count, p.edges);
        const std::vector<Feeder> feeders = usable_feeders(p);
        const SitingTable table(p, network, feeders, all_edges(p));
        for (const std::vector<std::int32_t>& open : {std::vector<std::int32_t>{}, {3}, {2, 9}}) {
            const std::vector<Cost> least = table.least_with_one_more(open);
            for (std::size_t c = 0; c < least.size(); ++c) {
                std::vector<std::int32_t> more = open;
                const std::int32_t site = table.candidates()[c];
                if (std::ranges::find(more, site) != more.end()) continue;
                more.insert(std::ranges::lower_bound(more, site), site);
                const auto siting = table.assign(more);
                if (siting) CHECK(least[c] <= siting->cost);
            }
        }
    }
}

TEST_CASE("a table of a few sites on the tree assigns as one of all sites does") {
    std::mt19937 random(12);
    for (int round = 0; round < 40; ++round) {
        const TwoLevelProblem p = drawn(random, round % 2 == 1);
        const pair_routes::Network network(p.vertex_count, p.edges);
        const std::vector<Feeder> feeders = usable_feeders(p);
        const std::vector<std::int32_t> open = {1, 6, 12};
        const auto few = SitingTable(p, network, feeders, all_edges(p), open).assign(open);
        const auto all = SitingTable(p, network, feeders, all_edges(p)).assign(open);
        REQUIRE(few.has_value() == all.has_value());
        if (!few) continue;
        CHECK(few->cost == all->cost);
        CHECK(few->served_by == all->served_by);
    }
}
