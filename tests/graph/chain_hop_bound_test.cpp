// Checked against every order of the stops and every way to cut it into chains.

#include "graph/chain_hop_bound.hpp"

#include <algorithm>
#include <limits>
#include <random>

#include <doctest/doctest.h>

#include "support/effort.hpp"

namespace {

using namespace spadework::graph;
using chains::HopCosts;
using chains::StopGroup;
using spadework::effort;

HopCosts random_costs(std::mt19937& random, std::int32_t stops) {
    const auto below = [&](Cost n) { return static_cast<Cost>(random() % static_cast<std::uint32_t>(n)); };
    HopCosts costs;
    costs.stops = stops;
    costs.a_chain = below(60) - 30;
    costs.longest_chain = 1 + static_cast<std::int32_t>(below(stops));
    costs.between.assign(static_cast<std::size_t>(stops) * static_cast<std::size_t>(stops), 0);
    for (std::int32_t i = 0; i < stops; ++i) {
        costs.from_source.push_back(below(100));
        for (std::int32_t j = 0; j < i; ++j) {
            const Cost hop = below(60);
            costs.between[static_cast<std::size_t>(i * stops + j)] = hop;
            costs.between[static_cast<std::size_t>(j * stops + i)] = hop;
        }
    }
    return costs;
}

Cost exhaustive_least(const HopCosts& costs) {
    std::vector<std::int32_t> order;
    for (std::int32_t s = 0; s < costs.stops; ++s)
        order.push_back(s);
    Cost best = std::numeric_limits<Cost>::max();
    do {
        for (unsigned cuts = 0; cuts < 1U << (costs.stops - 1); ++cuts) {
            Cost total = costs.a_chain + costs.hop(-1, order[0]);
            std::int32_t length = 1;
            bool fits = length <= costs.longest_chain;
            for (std::size_t i = 1; i < order.size(); ++i) {
                const bool cut = (cuts >> (i - 1) & 1U) != 0;
                total += cut ? costs.a_chain + costs.hop(-1, order[i]) : costs.hop(order[i - 1], order[i]);
                length = cut ? 1 : length + 1;
                fits = fits && length <= costs.longest_chain;
            }
            if (fits) best = std::min(best, total);
        }
    } while (std::next_permutation(order.begin(), order.end()));
    return best;
}

}  // namespace

TEST_CASE("the bound on hops never passes the exhaustive least, whatever the groups and the target") {
    std::mt19937 random(31);
    int proved = 0;
    constexpr int kRuns = effort(300);
    for (int run = 0; run < kRuns; ++run) {
        CAPTURE(run);
        const auto stops = static_cast<std::int32_t>(1 + random() % 6);
        const HopCosts costs = random_costs(random, stops);
        std::vector<StopGroup> groups;
        for (int g = 0; g < 3; ++g) {
            StopGroup group;
            for (std::int32_t s = 0; s < stops; ++s) {
                if (random() % 2 == 0) group.push_back(s);
            }
            if (!group.empty()) groups.push_back(group);
        }
        const Cost least = exhaustive_least(costs);
        const Cost bound = least_hops(costs, groups, least);
        REQUIRE(bound <= least);
        REQUIRE(least_hops(costs, groups, least + 1000) <= least);
        REQUIRE(least_hops(costs, {}, least) <= least);
        proved += bound == least ? 1 : 0;
    }
    MESSAGE("least proved in " << proved << " of " << kRuns);
    CHECK(proved >= kRuns / 2);
}

TEST_CASE("stops far from the source and close together need a hop in for every chain") {
    HopCosts costs;
    costs.stops = 4;
    costs.longest_chain = 2;
    costs.from_source = {100, 100, 100, 100};
    costs.between.assign(16, 1);
    CHECK(least_hops(costs, {}, 202) == 202);  // Two chains of two stops: 2 * (100 + 1).
}

TEST_CASE("hops too dear for penalties keep the bound of the plain spanning tree") {
    HopCosts costs;
    costs.stops = 2;
    costs.longest_chain = 1;
    const Cost dear = Cost{1} << 50;
    costs.from_source = {dear, dear};
    costs.between = {0, 3, 3, 0};
    const Cost bound = least_hops(costs, {}, 2 * dear);
    CHECK(bound >= dear);
    CHECK(bound <= 2 * dear);
}
