// What trenches cost a demand, against labels lowered until nothing more falls.

#include "graph/two_level_trench_prices.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include <doctest/doctest.h>

namespace {

using namespace spadework::graph;
using namespace spadework::graph::two_level;

constexpr VertexId kVertices = 40;
constexpr double kInfinite = std::numeric_limits<double>::infinity();

/// The last vertex is cut off.
std::vector<SharedCostEdge> drawn_edges(std::mt19937& random) {
    const auto below = [&](int n) { return static_cast<VertexId>(random() % static_cast<unsigned>(n)); };
    std::vector<SharedCostEdge> edges;
    for (VertexId e = 0; e < 70; ++e) {
        const VertexId tail = e + 2 < kVertices ? e + 1 : below(kVertices - 1);
        edges.push_back({tail, e + 2 < kVertices ? below(e + 1) : below(kVertices - 1), 0, 0, 0});
    }
    return edges;
}

/// Prices of all sizes on one arc in so many.
std::vector<float> drawn_prices(std::mt19937& random, std::size_t arcs, unsigned one_in) {
    std::vector<float> prices(arcs, 0.0F);
    for (float& price : prices) {
        if (random() % one_in == 0) price = std::ldexp(1.0F, static_cast<int>(random() % 50)) * 1.1F;
    }
    return prices;
}

std::vector<double> plain_labels(const std::vector<SharedCostEdge>& edges, const std::vector<float>& prices) {
    std::vector<double> label(kVertices, kInfinite);
    label[0] = 0.0;
    for (bool changed = true; changed;) {
        changed = false;
        const auto lower = [&](VertexId from, VertexId to, double price) {
            if (label[from] + price >= label[to]) return;
            label[to] = label[from] + price;
            changed = true;
        };
        for (std::size_t e = 0; e < edges.size(); ++e) {
            lower(edges[e].tail, edges[e].head, static_cast<double>(prices[2 * e]));
            lower(edges[e].head, edges[e].tail, static_cast<double>(prices[2 * e + 1]));
        }
    }
    return label;
}

}  // namespace

TEST_CASE("what the trench to a vertex costs is the least of all ways, and the way named costs as much") {
    std::mt19937 random(3);
    for (int round = 0; round < 200; ++round) {
        const std::vector<SharedCostEdge> edges = drawn_edges(random);
        const pair_routes::Network network(kVertices, edges);
        TrenchPrices<float, double> trench(network, 0);
        for (const unsigned one_in : {1U, 2U, 6U, 1000U}) {
            const std::vector<float> prices = drawn_prices(random, 2 * edges.size(), one_in);
            const std::vector<double> expected = plain_labels(edges, prices);
            trench.measure(prices.data(), kInfinite);
            for (VertexId v = 0; v < kVertices; ++v) {
                CHECK(trench.label(v) == expected[v]);
                if (expected[v] == kInfinite) continue;
                std::vector<std::uint32_t> way;
                trench.append_way(v, way);
                double sum = 0.0;
                VertexId at = v;
                for (const std::uint32_t arc : way) {
                    const SharedCostEdge& edge = edges[arc / 2];
                    CHECK(at == (arc % 2 == 0 ? edge.head : edge.tail));
                    at = arc % 2 == 0 ? edge.tail : edge.head;
                    sum += static_cast<double>(prices[arc]);
                }
                CHECK(at == 0);
                CHECK(std::abs(sum - expected[v]) <= 1e-9 * expected[v]);
            }
        }
    }
}

TEST_CASE("trenches dearer than the limit are left out, and no others") {
    std::mt19937 random(4);
    for (int round = 0; round < 100; ++round) {
        const std::vector<SharedCostEdge> edges = drawn_edges(random);
        const pair_routes::Network network(kVertices, edges);
        TrenchPrices<float, double> trench(network, 0);
        const std::vector<float> prices = drawn_prices(random, 2 * edges.size(), 2);
        const std::vector<double> expected = plain_labels(edges, prices);
        for (const double most : {0.0, expected[20], expected[30] / 2}) {
            trench.measure(prices.data(), most);
            for (VertexId v = 0; v < kVertices; ++v)
                CHECK(trench.label(v) == (expected[v] <= most ? expected[v] : kInfinite));
        }
    }
}
