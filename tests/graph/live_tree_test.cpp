#include "graph/live_tree.hpp"

#include <optional>

#include <doctest/doctest.h>

#include "graph/cheapest_way.hpp"
#include "graph/key_path_exchange.hpp"
#include "graph/plan_search.hpp"
#include "graph/reduction.hpp"
#include "graph/region_search.hpp"
#include "graph/support/small_problems.hpp"

namespace spadework::graph {

namespace {

constexpr testing::ProblemShape kShape{.vertices = 40, .edges = 90, .demands = 12, .most_passage = 9};

/// Random networks on which a tree is worth having.
template <class Check>
void for_random_networks(int seed, Check check) {
    testing::Dice dice(seed);
    for (int checked = 0; checked < 30;) {
        const SharedCostProblem problem = testing::random_problem(kShape, dice);
        const auto small = reduced(problem);
        if (!small || small->problem.demands.size() < 3) continue;
        check(SearchNetwork(small->problem, small->one_measure), dice);
        ++checked;
    }
}

void check_figures(const SearchNetwork& network, const LiveTree& live) {
    const RouteTree tree = live.plain();
    const TreeView view(network, tree);
    for (const VertexId v : view.order) {
        CHECK(live.at(v).carried.weight == doctest::Approx(view.carried[v].weight));
        CHECK(live.at(v).carried.multiplicity == doctest::Approx(view.carried[v].multiplicity));
        CHECK(live.at(v).from_root.length == doctest::Approx(view.from_root[v].length));
        CHECK(live.at(v).from_root.passage == doctest::Approx(view.from_root[v].passage));
        CHECK(live.at(v).children == view.child_count[v]);
    }
}

bool same_edges(const SearchNetwork& network, const RouteTree& a, const RouteTree& b) {
    for (VertexId v = 0; v < network.vertex_count; ++v) {
        if (a.parent_edge(v) != b.parent_edge(v)) return false;
    }
    return true;
}

/// A tree of shortest charges, far from a good one.
RouteTree plain_star(const SearchNetwork& network) {
    RouteTree tree(network, network.root_at.front());
    const std::vector<PathLength> to_root = shortest_reach(network, {tree.root()});
    CheapestWay way(network, to_root);
    std::vector<PathLength> from_root(network.vertex_count);
    for (std::size_t d = 0; d < network.demand_at.size(); ++d) {
        way.find(
            network.demand_at[d], network.rate[d], [&](VertexId v) { return tree.holds(v); },
            [&](VertexId v) { return from_root[v]; }, [](EdgeId, VertexId) { return 1e-3; });
        for (std::size_t i = 1; i < way.way().size(); ++i) {
            tree.hang(way.way()[i], way.edges()[i - 1]);
            from_root[way.way()[i]] = from_root[way.way()[i - 1]] + network.reach[way.edges()[i - 1]];
        }
    }
    return tree;
}

}  // namespace

TEST_CASE("A live tree's figures stay those of its shape while key paths are exchanged, and each gain is real") {
    int exchanges = 0;
    for_random_networks(5, [&](const SearchNetwork& network, testing::Dice&) {
        LiveTree live(network, plain_star(network));
        const std::vector<PathLength> to_root = shortest_reach(network, {live.root()});
        KeyPathExchange exchange(network, to_root, live);
        double cost = live.plain().cost(network, network.opening);
        for (VertexId v = 0; v < network.vertex_count; ++v) {
            if (!live.is_key(v)) continue;
            const double gain = exchange.exchange_above(v);
            exchanges += gain > 0.0 ? 1 : 0;
            const double now = live.plain().cost(network, network.opening);
            CHECK(now == doctest::Approx(cost - gain));
            cost = now;
            check_figures(network, live);
        }
    });
    CHECK(exchanges > 20);
}

TEST_CASE("Changes to a live tree can be taken back whole") {
    for_random_networks(6, [&](const SearchNetwork& network, testing::Dice& dice) {
        LiveTree live(network, plain_star(network));
        const RouteTree before = live.plain();
        const std::vector<PathLength> to_root = shortest_reach(network, {live.root()});
        KeyPathExchange exchange(network, to_root, live);
        CheapestWay way(network, to_root);
        live.remember();
        for (int change = 0; change < 5; ++change) {
            const auto d = static_cast<std::int32_t>(dice.upto(static_cast<int>(network.demand_at.size()) - 1));
            live.take_out(d);
            way.find(
                network.demand_at[d], network.rate[d], [&](VertexId v) { return live.holds(v); },
                [&](VertexId v) { return live.at(v).from_root; },
                [&](EdgeId e, VertexId) { return network.opening[e]; });
            live.put_in(d, way.way(), way.edges());
            check_figures(network, live);
            if (live.is_key(network.demand_at[d])) exchange.exchange_above(network.demand_at[d]);
            check_figures(network, live);
        }
        live.take_back();
        CHECK(same_edges(network, live.plain(), before));
        check_figures(network, live);
    });
}

TEST_CASE(
    "Rebuilding regions never makes a tree dearer, tells its true cost and gives the same tree for the same seed") {
    int better = 0;
    for_random_networks(7, [&](const SearchNetwork& network, testing::Dice&) {
        RouteTree star = plain_star(network);
        const double cost = star.cost(network, network.opening);
        const TreeFound from{std::move(star), cost};
        const std::vector<PathLength> to_root = shortest_reach(network, {from.tree.root()});
        const std::vector<double> use(network.edge_count(), 0.0);
        const Neighbours neighbours = nearest_demands(network, 5);
        const RegionGuide guide{to_root, use, neighbours};
        const TreeFound once = with_regions_rebuilt(network, guide, from, 40, 3);
        CHECK(once.cost == doctest::Approx(once.tree.cost(network, network.opening)));
        CHECK(once.cost <= from.cost);
        better += once.cost < from.cost ? 1 : 0;
        CHECK(same_edges(network, once.tree, with_regions_rebuilt(network, guide, from, 40, 3).tree));
    });
    CHECK(better > 10);
}

}  // namespace spadework::graph
