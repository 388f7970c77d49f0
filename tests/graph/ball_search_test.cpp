#include "graph/ball_search.hpp"

#include <limits>

#include <doctest/doctest.h>

#include "graph/reduction.hpp"
#include "graph/support/small_problems.hpp"

namespace spadework::graph {

namespace {

constexpr testing::ProblemShape kShape{.vertices = 30, .edges = 70, .demands = 8};

/// Distance from the demand to the root where each arc towards the demand costs its charge plus its price, by relaxing
/// every edge often enough.
double plain_distance(const SearchNetwork& network, std::size_t d, const std::vector<double>& price) {
    std::vector<double> label(network.vertex_count, std::numeric_limits<double>::infinity());
    label[network.demand_at[d]] = 0.0;
    for (VertexId round = 0; round < network.vertex_count; ++round) {
        for (EdgeId e = 0; e < static_cast<EdgeId>(network.edge_count()); ++e) {
            const double own = charge(network.rate[d], network.reach[e]);
            const VertexId tail = network.tail[e];
            const VertexId head = network.head[e];
            label[tail] = std::min(label[tail], label[head] + own + price[2 * e]);
            label[head] = std::min(label[head], label[tail] + own + price[2 * e + 1]);
        }
    }
    return label[network.root_at.front()];
}

/// Searches again and again while prices rise and fall; returns how often the ball was too small to know.
template <class Real>
int compare_while_prices_change(double radius, double exactness) {
    testing::Dice dice(9);
    int cut_short = 0;
    for (int checked = 0; checked < 25;) {
        const auto small = reduced(testing::random_problem(kShape, dice));
        if (!small || small->problem.demands.empty()) continue;
        ++checked;
        const SearchNetwork network(small->problem, small->one_measure);
        const std::vector<PathLength> to_root = shortest_reach(network, network.root_at);
        const InwardArcs arcs(network, to_root);
        HeldPrices<Real> held;
        const DemandBall ball = BallBuilder<Real>(network, arcs).build(0, to_root, {0}, held, {radius, 1.0});
        std::vector<double> price(2 * network.edge_count(), 0.0);
        for (const std::uint32_t place : arcs.place_of)
            held.push_back({place, 0});
        BallSearch<Real> search(arcs, network.vertex_count, false);
        BallPaths paths;
        for (int change = 0; change < 12; ++change) {
            for (int k = 0; k < 8; ++k) {
                const auto arc = static_cast<ArcId>(dice.upto(static_cast<int>(price.size()) - 1));
                price[arc] = static_cast<double>(dice.upto(9));
                held[arc].price = static_cast<Real>(price[arc]);
            }
            search.run(ball, network.rate[0], held, true, paths);
            const double at_root = ball.all_roots ? paths.root_distance.front() : paths.outside_distance;
            const double found = ball.offset + at_root;
            const double truth = plain_distance(network, 0, price);
            CHECK(found <= truth * (1.0 + exactness) + exactness);
            if (radius > 1e6) CHECK(found == doctest::Approx(truth).epsilon(exactness));
            cut_short += found < truth * (1.0 - 1e-3) ? 1 : 0;
        }
    }
    return cut_short;
}

}  // namespace

TEST_CASE("A ball that holds all finds each distance anew while prices rise and fall") {
    CHECK(compare_while_prices_change<double>(std::numeric_limits<double>::infinity(), 1e-9) == 0);
    CHECK(compare_while_prices_change<float>(std::numeric_limits<double>::infinity(), 1e-4) == 0);
}

TEST_CASE("A small ball never finds a distance that is too long") {
    CHECK(compare_while_prices_change<double>(3.0, 1e-9) > 0);
}

}  // namespace spadework::graph
