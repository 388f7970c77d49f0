#include "graph/stepped_ways.hpp"

#include <functional>

#include <doctest/doctest.h>

#include "graph/saturating.hpp"
#include "graph/support/small_problems.hpp"

namespace spadework::graph {
namespace {

using testing::Dice;

struct Instance {
    SharedCostProblem network;
    ArcCosts costs;
    Cost slope = 0;
    Length step = 1;  ///< What lengths are rounded up to.
    Length joint_every = 1;
    Cost joint = 0;
    Cost base = 0;

    [[nodiscard]] LengthPrice price() const {
        const auto of = [this](Length length) {
            return base + slope * ((length + step - 1) / step * step) + joint * (length / joint_every);
        };
        return {of, base, slope};
    }
};

Instance random_instance(Dice& dice) {
    Instance made;
    made.network = testing::random_problem({.vertices = 7, .edges = 12, .most_opening = 9}, dice);
    for (std::vector<Cost>& direction : made.costs) {
        for (std::size_t e = 0; e < made.network.edges.size(); ++e)
            direction.push_back(dice.upto(30));
    }
    made.slope = dice.upto(4);
    made.step = 1 + dice.upto(9);
    made.joint_every = 3 + dice.upto(9);
    made.joint = dice.upto(40);
    made.base = dice.upto(15);
    return made;
}

/// Tries every simple path.
Cost least_by_trying(const Instance& in, VertexId start, VertexId target) {
    std::vector<char> seen(static_cast<std::size_t>(in.network.vertex_count), 0);
    const LengthPrice price = in.price();
    Cost least = kLargestCost;
    const std::function<void(VertexId, Cost, Length)> walk = [&](VertexId at, Cost cost, Length length) {
        if (at == target) least = std::min(least, cost + price.price(length));
        seen[static_cast<std::size_t>(at)] = 1;
        for (std::size_t e = 0; e < in.network.edges.size(); ++e) {
            const SharedCostEdge& edge = in.network.edges[e];
            for (const std::size_t direction : {0U, 1U}) {
                const VertexId from = direction == 0 ? edge.tail : edge.head;
                const VertexId to = direction == 0 ? edge.head : edge.tail;
                if (from != at || seen[static_cast<std::size_t>(to)]) continue;
                walk(to, cost + in.costs[direction][e], length + edge.length);
            }
        }
        seen[static_cast<std::size_t>(at)] = 0;
    };
    walk(start, 0, 0);
    return least;
}

}  // namespace

TEST_CASE("the least that paths cost with a stepped price of length is that of the best of all simple paths") {
    Dice dice(401);
    int without_path = 0;
    int beyond_straight = 0;
    for (int round = 0; round < 2000; ++round) {
        CAPTURE(round);
        const Instance in = random_instance(dice);
        SteppedWays ways(in.network.vertex_count, in.network.edges);
        const auto target = static_cast<VertexId>(dice.upto(6));
        const auto start = static_cast<VertexId>(dice.upto(6));
        const Cost expected = least_by_trying(in, start, target);
        for (const std::optional<VertexId> told : {std::optional<VertexId>(), std::optional(start)}) {
            ways.aim_at(target, in.costs, in.slope, told);
            CHECK(ways.least_from(start, in.price(), 10'000) == expected);
            // Where few beginnings may be kept, what is found is a bound.
            const Cost bound = ways.least_from(start, in.price(), 2);
            CHECK(bound <= expected);
            if (expected == kLargestCost) continue;
            CHECK(ways.straight_from(start) + in.base <= bound);
            beyond_straight += ways.straight_from(start) + in.base < expected ? 1 : 0;
        }
        without_path += expected == kLargestCost ? 1 : 0;
    }
    CHECK(without_path > 50);
    CHECK(beyond_straight > 1000);
}

TEST_CASE("a dearer path that stays below a jump is cheapest") {
    // Two ways from 0 to 1: 10 long, and 9 long for 5 more. A length of 10 costs 20 at once.
    const std::vector<SharedCostEdge> edges = {{0, 1, 0, 10, 0}, {0, 1, 0, 9, 0}};
    const ArcCosts costs = {std::vector<Cost>{0, 5}, std::vector<Cost>{0, 5}};
    SteppedWays ways(2, edges);
    ways.aim_at(1, costs, 1);
    const LengthPrice jump{[](Length length) { return length >= 10 ? length + 20 : length; }, 0, 1};
    CHECK(ways.straight_from(0) == 10);
    CHECK(ways.least_from(0, jump, 100) == 14);
}

TEST_CASE("the path that comes with the least costs just that, and leads from start to target") {
    Dice dice(403);
    int paths = 0;
    for (int round = 0; round < 1000; ++round) {
        CAPTURE(round);
        const Instance in = random_instance(dice);
        SteppedWays ways(in.network.vertex_count, in.network.edges);
        const auto target = static_cast<VertexId>(dice.upto(6));
        const auto start = static_cast<VertexId>(dice.upto(6));
        ways.aim_at(target, in.costs, in.slope);
        const SteppedWays::Cheapest found = ways.cheapest_from(start, in.price(), 10'000);
        CHECK(found.least == ways.least_from(start, in.price(), 10'000));
        CHECK(found.cost == found.least);
        if (found.cost == kLargestCost) continue;
        ++paths;
        VertexId at = start;
        Cost cost = 0;
        Length length = 0;
        for (const EdgeId e : found.path) {
            const SharedCostEdge& edge = in.network.edges[e];
            const bool forwards = edge.tail == at;
            REQUIRE((forwards || edge.head == at));
            cost += in.costs[forwards ? 0 : 1][e];
            length += edge.length;
            at = forwards ? edge.head : edge.tail;
        }
        CHECK(at == target);
        CHECK(cost + in.price().price(length) == found.cost);
        const SteppedWays::Cheapest cut_short = ways.cheapest_from(start, in.price(), 1);
        CHECK(cut_short.least <= found.least);
        CHECK(cut_short.cost >= found.cost);
    }
    CHECK(paths > 500);
}

}  // namespace spadework::graph
