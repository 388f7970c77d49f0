// Route sets are checked against walking every route there is and trying every set of them.

#include "graph/chain_routes.hpp"

#include <algorithm>
#include <limits>
#include <random>
#include <set>

#include <doctest/doctest.h>

namespace {

using spadework::graph::chains::RouteTable;
using Neighbours = std::vector<std::vector<std::int32_t>>;

/// Least costs of routes by length less one and last stop, by walking every route there is.
class EveryRoute {
public:
    EveryRoute(const std::vector<double>& costs, const Neighbours& neighbours, std::size_t longest)
        : least(longest, std::vector<double>(neighbours.size(), kNever)), costs_(costs), neighbours_(neighbours) {
        for (std::size_t t = 0; t < neighbours.size(); ++t)
            walk(t, 0, costs[t * (neighbours.size() + 1) + neighbours.size()], {});
    }

    static constexpr double kNever = std::numeric_limits<double>::infinity();
    std::vector<std::vector<double>> least;

private:
    void walk(std::size_t at, std::size_t layer, double cost, const std::set<std::int32_t>& remembered) {
        least[layer][at] = std::min(least[layer][at], cost);
        if (layer + 1 == least.size()) return;
        for (std::size_t t = 0; t < neighbours_.size(); ++t) {
            if (t == at || remembered.count(static_cast<std::int32_t>(t)) > 0) continue;
            std::set<std::int32_t> after;
            for (const std::int32_t known : neighbours_[t]) {
                if (known == static_cast<std::int32_t>(at) || remembered.count(known) > 0) after.insert(known);
            }
            walk(t, layer + 1, cost + costs_[t * (neighbours_.size() + 1) + at], after);
        }
    }

    const std::vector<double>& costs_;
    const Neighbours& neighbours_;
};

/// Least cost of routes that end at different stops from `stop` on and have so many steps together.
double least_set(const EveryRoute& routes, std::size_t stop, std::size_t steps, double a_chain) {
    if (steps == 0) return 0.0;
    if (stop == routes.least[0].size()) return EveryRoute::kNever;
    double best = least_set(routes, stop + 1, steps, a_chain);
    for (std::size_t length = 1; length <= std::min(steps, routes.least.size()); ++length) {
        best = std::min(
            best, routes.least[length - 1][stop] + a_chain + least_set(routes, stop + 1, steps - length, a_chain));
    }
    return best;
}

Neighbours neighbours_of(std::mt19937& random, std::size_t stops, unsigned percent) {
    Neighbours neighbours(stops);
    for (std::size_t t = 0; t < stops; ++t) {
        for (std::size_t s = 0; s < stops; ++s) {
            if (s != t && random() % 100 < percent) neighbours[t].push_back(static_cast<std::int32_t>(s));
        }
    }
    return neighbours;
}

}  // namespace

TEST_CASE("the cheapest set of routes is found, whatever they remember") {
    std::mt19937 random(7);
    for (int run = 0; run < 200; ++run) {
        CAPTURE(run);
        const std::size_t stops = 1 + random() % 6;
        const std::size_t longest = std::min<std::size_t>(stops, 1 + random() % 5);
        const double a_chain = static_cast<double>(random() % 40) - 20.0;
        std::vector<double> costs;
        for (std::size_t i = 0; i < stops * (stops + 1); ++i)
            costs.push_back(static_cast<double>(random() % 100) - 30.0);
        const Neighbours neighbours = neighbours_of(random, stops, static_cast<unsigned>(run % 3) * 50);
        const double least = least_set(EveryRoute(costs, neighbours, longest), 0, stops, a_chain);
        RouteTable table(neighbours, static_cast<std::int32_t>(longest));
        REQUIRE(table.least(costs, a_chain) == doctest::Approx(least));
        double sum = 0.0;
        for (const auto& hop : table.hops()) {
            const std::size_t from = hop.from < 0 ? stops : static_cast<std::size_t>(hop.from);
            sum += costs[static_cast<std::size_t>(hop.to) * (stops + 1) + from] + (hop.from < 0 ? a_chain : 0.0);
        }
        CHECK(sum == doctest::Approx(least));
        CHECK(table.hops().size() == stops);
    }
}

TEST_CASE("no stops, no routes") {
    RouteTable table({}, 3);
    CHECK(table.least({}, 5.0) == 0.0);
    CHECK(table.hops().empty());
}
