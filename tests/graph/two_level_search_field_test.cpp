// The search for a demand's cheapest priced way, against all ways that Floyd and Warshall know.

#include "graph/two_level_search_field.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include <doctest/doctest.h>

namespace {

using namespace spadework::graph;
using namespace spadework::graph::two_level;

constexpr VertexId kVertices = 10;
using Table = std::vector<std::vector<double>>;

/// A network with a site at some vertices, at one of them two; every demand of one of two kinds.
struct Drawn {
    std::vector<SharedCostEdge> edges;
    Relaxation relaxation;
};

Drawn drawn(std::mt19937& random) {
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    Drawn made;
    for (VertexId e = 0; e < 18; ++e) {
        const VertexId tail = e + 1 < kVertices ? e + 1 : below(kVertices);
        made.edges.push_back({tail, e + 1 < kVertices ? below(e + 1) : below(kVertices), 100, 1 + below(30), 0});
    }
    Relaxation& r = made.relaxation;
    r.opening.assign(made.edges.size(), 100);
    r.source_length.assign(kVertices, 0);
    r.source_passage.assign(kVertices, 0);
    for (const VertexId at : {2, 5, 5, 7})
        r.sites.push_back({at, 0, below(40)});
    for (int d = 0; d < 4; ++d) {
        const int size = 1 + below(2);
        r.demands.push_back({below(kVertices), 2 * size, {3 * size, 0}, d % 2 == 1, {4 * size, 0}, below(9) - 4});
    }
    return made;
}

/// Prices on few purses, as they are near the end of a descent: most ways out to sites have none.
std::vector<float> prices_on(const SearchField& field, std::mt19937& random, unsigned one_in) {
    std::vector<float> prices(field.purse_count(), 0.0F);
    for (float& price : prices) {
        if (random() % one_in == 0) price = static_cast<float>(random() % 60);
    }
    return prices;
}

Table distances(const Drawn& made, const std::vector<float>& prices, double weight) {
    Table d(kVertices, std::vector<double>(kVertices, std::numeric_limits<double>::infinity()));
    for (std::size_t v = 0; v < d.size(); ++v)
        d[v][v] = 0;
    for (std::size_t e = 0; e < made.edges.size(); ++e) {
        const SharedCostEdge& edge = made.edges[e];
        const double charge = weight * static_cast<double>(edge.length);
        double& there = d[edge.tail][edge.head];
        there = std::min(there, charge + prices[2 * e]);
        double& back = d[edge.head][edge.tail];
        back = std::min(back, charge + prices[2 * e + 1]);
    }
    for (std::size_t k = 0; k < d.size(); ++k) {
        for (auto& from : d) {
            for (std::size_t j = 0; j < d.size(); ++j)
                from[j] = std::min(from[j], from[k] + d[k][j]);
        }
    }
    return d;
}

double cheapest(const Drawn& made, const SearchField& field, const RelaxedDemand& demand,
                const std::vector<float>& prices) {
    const Table trench = distances(made, prices, 0);
    const Table cable = distances(made, prices, static_cast<double>(demand.service.weight));
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t s = 0; s < made.relaxation.sites.size(); ++s) {
        const RelaxedSite& site = made.relaxation.sites[s];
        const double asked = static_cast<double>(site.per_unit * demand.units) + prices[field.first_site() + s];
        for (VertexId fork = 0; fork < kVertices; ++fork)
            least = std::min(least, trench[0][fork] + cable[fork][site.at] + asked + cable[fork][demand.at]);
    }
    if (!demand.may_be_direct) return least;
    const Table direct = distances(made, prices, static_cast<double>(demand.direct.weight));
    return std::min(least, direct[0][demand.at] + static_cast<double>(demand.direct_fixed));
}

}  // namespace

TEST_CASE("a demand's cheapest way is found wherever prices lie") {
    std::mt19937 random(5);
    for (int round = 0; round < 60; ++round) {
        const Drawn made = drawn(random);
        const pair_routes::Network network(kVertices, made.edges);
        const SearchField field(made.relaxation, network);
        DemandSearch search(field);
        for (const unsigned one_in : {1U, 3U, 12U, 1000U}) {
            const std::vector<float> prices = prices_on(field, random, one_in);
            for (const RelaxedDemand& demand : made.relaxation.demands) {
                const double found = search.find(demand, prices.data());
                CHECK(std::abs(found - cheapest(made, field, demand, prices)) < 0.01);
            }
        }
    }
}

TEST_CASE("what some way costs is no hindrance to finding the cheapest, nor is a limit below all ways") {
    std::mt19937 random(6);
    for (int round = 0; round < 40; ++round) {
        const Drawn made = drawn(random);
        const pair_routes::Network network(kVertices, made.edges);
        const SearchField field(made.relaxation, network);
        DemandSearch search(field);
        const std::vector<float> prices = prices_on(field, random, 3);
        for (const RelaxedDemand& demand : made.relaxation.demands) {
            const double found = search.find(demand, prices.data());
            const std::vector<Purse> way = search.used;
            for (const double most : {found, found + 20.0, found - 20.0}) {
                CHECK(search.find(demand, prices.data(), most) == found);
                CHECK(search.used == way);
            }
        }
    }
}
