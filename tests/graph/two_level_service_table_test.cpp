// What demands pay under prices that change little by little, against a table that starts afresh each time.

#include "graph/two_level_service_table.hpp"

#include <random>

#include <doctest/doctest.h>

#include "graph/two_level_even.hpp"
#include "graph/two_level_problem.hpp"

namespace {

using namespace spadework::graph;
using namespace spadework::graph::two_level;

constexpr VertexId kVertices = 30;

struct Drawn {
    std::vector<SharedCostEdge> edges;
    Relaxation even;
};

Drawn drawn(std::mt19937& random) {
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    Drawn made;
    for (VertexId e = 0; e < 50; ++e) {
        const VertexId tail = e + 1 < kVertices ? e + 1 : below(kVertices);
        // Lengths of nothing make ties, which prices may turn round.
        made.edges.push_back(
            {tail, below(e + 1 < kVertices ? e + 1 : kVertices), 100, below(4) == 0 ? 0 : below(30), 0});
    }
    for (const VertexId at : {2, 5, 9, 17, 28})
        made.even.sites.push_back({at, 0, 0});
    for (int d = 0; d < 4; ++d) {
        const int multiple = 1 + below(3);
        made.even.demands.push_back({below(kVertices), multiple, {multiple, 0}, d % 2 == 1, {multiple, 0}, -multiple});
    }
    return made;
}

void change(ArcPrices& prices, std::mt19937& random) {
    for (auto& of_demand : prices) {
        for (Cost& price : of_demand) {
            if (random() % 4 == 0) price = random() % 2 == 0 ? 0 : static_cast<Cost>(random() % 100);
        }
    }
}

/// What is paid on the arcs of a way beside service charges.
Cost prices_of(const std::vector<std::uint32_t>& way, const std::vector<Cost>& prices) {
    Cost sum = 0;
    for (const std::uint32_t arc : way)
        sum += prices[arc];
    return sum;
}

}  // namespace

TEST_CASE("what was reached in which order before does not show in what demands pay") {
    std::mt19937 random(7);
    WorkerTeam team(1);
    for (int round = 0; round < 20; ++round) {
        const Drawn made = drawn(random);
        const pair_routes::Network network(kVertices, made.edges);
        ServiceTable table(made.even, network);
        ArcPrices prices(made.even.demands.size(), std::vector<Cost>(2 * made.edges.size(), 0));
        for (int pass = 0; pass < 12; ++pass) {
            change(prices, random);
            table.measure(prices, team);
            ServiceTable afresh(made.even, network);
            afresh.measure(prices, team);
            CHECK(table.direct() == afresh.direct());
            for (std::size_t s = 0; s < made.even.sites.size(); ++s) {
                CHECK(table.by_demand(s) == afresh.by_demand(s));
                for (std::size_t d = 0; d < made.even.demands.size(); ++d)
                    CHECK(prices_of(table.way(d, static_cast<std::int32_t>(s)), prices[d]) <= table.by_demand(s)[d]);
            }
        }
    }
}
