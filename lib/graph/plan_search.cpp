#include "graph/plan_search.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>
#include <utility>

#include "graph/construction.hpp"
#include "graph/key_path_search.hpp"

namespace spadework::graph {

namespace {

constexpr std::size_t kRootsTried = 8;
constexpr int kRootMoves = 20;

/// For each root option its cost plus what all demands would pay on shortest paths, openings at a share of their cost.
std::vector<double> star_costs(const SearchNetwork& network) {
    std::vector<double> costs(network.root_cost);
    PathRate all;
    for (std::size_t d = 0; d < network.rate.size(); ++d)
        all += network.rate[d];
    for (std::size_t d = 0; d < network.rate.size(); ++d) {
        const std::vector<PathLength> reach = shortest_reach(network, {network.demand_at[d]});
        for (std::size_t r = 0; r < costs.size(); ++r)
            costs[r] += charge(network.rate[d], reach[network.root_at[r]]);
    }
    return costs;
}

/// The root option that serves the tree's demands best when the tree stays, and its cost.
std::pair<std::size_t, double> best_root_in(const SearchNetwork& network, const RouteTree& tree) {
    const TreeView view(network, tree);
    std::vector<double> path_cost(network.vertex_count, std::numeric_limits<double>::infinity());
    const PathRate& all = view.carried[tree.root()];
    double opened = 0.0;
    double paid = 0.0;
    for (const VertexId v : view.order) {
        const EdgeId up = tree.parent_edge(v);
        if (up < 0) continue;
        opened += network.opening[up];
        paid += charge(view.carried[v], network.reach[up]);
    }
    for (const VertexId v : view.order) {
        const EdgeId up = tree.parent_edge(v);
        if (up < 0) {
            path_cost[v] = paid;
            continue;
        }
        const PathRate change{all.weight - 2 * view.carried[v].weight,
                              all.multiplicity - 2 * view.carried[v].multiplicity};
        path_cost[v] = path_cost[tree.parent(network, v)] + charge(change, network.reach[up]);
    }
    std::pair<std::size_t, double> best{0, std::numeric_limits<double>::infinity()};
    for (std::size_t r = 0; r < network.root_at.size(); ++r) {
        const double cost = network.root_cost[r] + opened + path_cost[network.root_at[r]];
        if (cost < best.second) best = {r, cost};
    }
    return best;
}

TreeFound with_moving_root(const SearchNetwork& network, std::size_t option) {
    TreeFound best = best_tree_from(network, network.root_at[option], network.root_cost[option], network.opening);
    for (int move = 0; move < kRootMoves; ++move) {
        const auto [root, cost] = best_root_in(network, best.tree);
        if (cost >= best.cost * (1.0 - 1e-12)) break;
        best.tree.turn_to(network, network.root_at[root]);
        best.tree.prune(network);
        const std::vector<PathLength> to_root = shortest_reach(network, {best.tree.root()});
        exchange_key_paths(network, to_root, best.tree);
        best.cost = network.root_cost[root] + best.tree.cost(network, network.opening);
        TreeFound afresh = best_tree_from(network, network.root_at[root], network.root_cost[root], network.opening);
        if (afresh.cost < best.cost) best = std::move(afresh);
    }
    return best;
}

}  // namespace

TreeFound best_tree_from(const SearchNetwork& network, VertexId root, double root_cost,
                         const std::vector<double>& opening) {
    const std::vector<PathLength> to_root = shortest_reach(network, {root});
    std::optional<TreeFound> best;
    for (const auto& order : {heaviest_first(network, to_root), nearest_first(network, to_root)}) {
        RouteTree tree = joined_one_by_one(network, root, opening, to_root, order);
        exchange_key_paths(network, to_root, tree);
        const double cost = root_cost + tree.cost(network, network.opening);
        if (!best || cost < best->cost) best = TreeFound{std::move(tree), cost};
    }
    return std::move(*best);
}

TreeFound sketched_tree(const SearchNetwork& network) {
    std::vector<std::size_t> options(network.root_at.size());
    std::iota(options.begin(), options.end(), 0);
    if (options.size() > 1) {
        const std::vector<double> costs = star_costs(network);
        std::stable_sort(options.begin(), options.end(), [&](auto a, auto b) { return costs[a] < costs[b]; });
        options.resize(std::min(options.size(), kRootsTried));
    }
    std::optional<TreeFound> best;
    for (const std::size_t option : options) {
        TreeFound found = with_moving_root(network, option);
        if (!best || found.cost < best->cost) best = std::move(found);
    }
    return std::move(*best);
}

}  // namespace spadework::graph
