// Two ways are compared with the cheapest of all pairs of ways, tried one by one.

#include "graph/ring_two_ways.hpp"

#include <algorithm>
#include <optional>
#include <random>
#include <vector>

#include <doctest/doctest.h>

#include "support/effort.hpp"

namespace {

using namespace spadework::graph;
using namespace spadework::graph::rings;
using spadework::effort;

/// A random network in which every vertex can be reached; links cost up to 20, some nothing.
struct Site {
    LinkNetwork network;
    std::vector<Cost> least;  ///< By link.
};

Site random_site(std::mt19937& random) {
    Site site;
    const auto vertices = static_cast<VertexId>(3 + random() % 4);
    site.network.vertex_count = vertices;
    const auto join = [&](VertexId a, VertexId b) {
        site.network.links.push_back({a, b, {}, false, 0});
        site.least.push_back(static_cast<Cost>(random() % 5));
    };
    for (VertexId v = 1; v < vertices; ++v)
        join(static_cast<VertexId>(random() % static_cast<unsigned>(v)), v);
    for (auto more = random() % 6; more > 0; --more) {
        const auto a = static_cast<VertexId>(random() % static_cast<unsigned>(vertices));
        const auto b = static_cast<VertexId>(random() % static_cast<unsigned>(vertices));
        if (a != b) join(a, b);
    }
    list_steps(site.network);
    return site;
}

/// All ways from `at` to `to` that come by no vertex twice, as masks of links.
void list_ways(const LinkNetwork& network, VertexId at, VertexId to, unsigned vertices, unsigned links,
               std::vector<unsigned>& ways) {
    if (at == to) {
        ways.push_back(links);
        return;
    }
    for (const LinkStep& step : network.from(at)) {
        if ((vertices >> step.to & 1U) != 0) continue;
        list_ways(network, step.to, to, vertices | 1U << step.to, links | 1U << step.link, ways);
    }
}

Cost cost_of(unsigned links, const std::vector<Cost>& price) {
    Cost cost = 0;
    for (std::size_t l = 0; l < price.size(); ++l) {
        if ((links >> l & 1U) != 0) cost += price[l];
    }
    return cost;
}

std::optional<Cost> cheapest_pair(const LinkNetwork& network, VertexId from, VertexId to,
                                  const std::vector<Cost>& price) {
    std::vector<unsigned> ways;
    list_ways(network, from, to, 1U << from, 0, ways);
    std::optional<Cost> least;
    for (const unsigned one : ways) {
        for (const unsigned other : ways) {
            if ((one & other) != 0) continue;
            const Cost cost = cost_of(one, price) + cost_of(other, price);
            if (!least || cost < *least) least = cost;
        }
    }
    return least;
}

}  // namespace

TEST_CASE("two flows cost least of all pairs of ways that share no link, aimed at their goal or not") {
    std::mt19937 random(5);
    int pairs = 0;
    for (int run = 0; run < effort(400); ++run) {
        CAPTURE(run);
        const Site site = random_site(random);
        const VertexId to = static_cast<VertexId>(random() % static_cast<unsigned>(site.network.vertex_count));
        WaySearch plain(site.network);
        WaySearch aimed(site.network);
        aimed.aim_at(to, site.least);
        for (VertexId from = 0; from < site.network.vertex_count; ++from) {
            if (from == to) continue;
            std::vector<Cost> price = site.least;
            for (Cost& p : price)
                p += static_cast<Cost>(random() % 3 == 0 ? random() % 16 : 0);
            const auto least = cheapest_pair(site.network, from, to, price);
            const auto without_aim = plain.two_flows(from, to, price);
            const auto with_aim = aimed.two_flows(from, to, price);
            REQUIRE(without_aim.has_value() == least.has_value());
            REQUIRE(with_aim.has_value() == least.has_value());
            if (!least) continue;
            ++pairs;
            CHECK(without_aim->cost == *least);
            CHECK(with_aim->cost == *least);
        }
    }
    CHECK(pairs > effort(100));
}
