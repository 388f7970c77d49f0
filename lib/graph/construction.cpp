#include "graph/construction.hpp"

#include <algorithm>
#include <numeric>

#include "graph/cheapest_way.hpp"

namespace spadework::graph {

namespace {

/// Grows the tree by one demand at a time.
class Joiner {
public:
    Joiner(const SearchNetwork& network, VertexId root, const std::vector<double>& opening,
           const std::vector<PathLength>& to_root)
        : network_(network),
          opening_(opening),
          tree_(network, root),
          from_root_(network.vertex_count),
          search_(network, to_root) {}

    void join(std::int32_t demand) {
        const VertexId start = network_.demand_at[demand];
        if (tree_.holds(start)) return;
        search_.find(
            start, network_.rate[demand], [this](VertexId v) { return tree_.holds(v); },
            [this](VertexId v) { return from_root_[v]; }, [this](EdgeId e, VertexId) { return opening_[e]; });
        const std::vector<VertexId>& way = search_.way();
        for (std::size_t i = 1; i < way.size(); ++i) {
            const EdgeId edge = search_.edges()[i - 1];
            tree_.hang(way[i], edge);
            from_root_[way[i]] = from_root_[way[i - 1]] + network_.reach[edge];
        }
    }

    RouteTree take() && { return std::move(tree_); }

private:
    const SearchNetwork& network_;
    const std::vector<double>& opening_;
    RouteTree tree_;
    std::vector<PathLength> from_root_;
    CheapestWay search_;
};

template <class KeyOf>
std::vector<std::int32_t> sorted_demands(const SearchNetwork& network, KeyOf key_of) {
    std::vector<std::int32_t> order(network.demand_at.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return key_of(a) < key_of(b); });
    return order;
}

}  // namespace

RouteTree joined_one_by_one(const SearchNetwork& network, VertexId root, const std::vector<double>& opening,
                            const std::vector<PathLength>& to_root, const std::vector<std::int32_t>& demand_order) {
    Joiner joiner(network, root, opening, to_root);
    for (const std::int32_t demand : demand_order)
        joiner.join(demand);
    return std::move(joiner).take();
}

std::vector<std::int32_t> heaviest_first(const SearchNetwork& network, const std::vector<PathLength>& to_root) {
    return sorted_demands(network,
                          [&](std::int32_t d) { return -charge(network.rate[d], to_root[network.demand_at[d]]); });
}

std::vector<std::int32_t> nearest_first(const SearchNetwork& network, const std::vector<PathLength>& to_root) {
    return sorted_demands(network, [&](std::int32_t d) {
        const PathLength& reach = to_root[network.demand_at[d]];
        return reach.length + reach.passage;
    });
}

}  // namespace spadework::graph
