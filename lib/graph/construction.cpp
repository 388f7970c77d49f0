#include "graph/construction.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "graph/label_heap.hpp"

namespace spadework::graph {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

/// Grows the tree by one demand at a time.
class Joiner {
public:
    Joiner(const SearchNetwork& network, VertexId root, const std::vector<double>& opening,
           const std::vector<PathLength>& to_root)
        : network_(network),
          opening_(opening),
          to_root_(to_root),
          tree_(network, root),
          from_root_(network.vertex_count),
          label_(network.vertex_count, kFar),
          next_edge_(network.vertex_count, -1),
          queue_(network.vertex_count) {}

    void join(std::int32_t demand) {
        const VertexId start = network_.demand_at[demand];
        if (!tree_.holds(start)) hang_along(nearest_by_cost(start, network_.rate[demand]));
        for (const VertexId v : met_)
            label_[v] = kFar;
        met_.clear();
        queue_.clear();
    }

    RouteTree take() && { return std::move(tree_); }

private:
    /// The vertex of the tree where the cheapest path from `start` ends.
    VertexId nearest_by_cost(VertexId start, const PathRate& rate) {
        VertexId best = -1;
        double best_cost = kFar;
        meet(start, 0.0, -1, rate);
        while (!queue_.empty() && queue_.top_key() < best_cost) {
            const VertexId here = queue_.pop();
            if (tree_.holds(here)) {
                const double total = label_[here] + charge(rate, from_root_[here]);
                if (total < best_cost) {
                    best_cost = total;
                    best = here;
                }
                continue;
            }
            for (const Step& step : network_.steps.from(here)) {
                const double along = label_[here] + opening_[step.edge] + charge(rate, network_.reach[step.edge]);
                meet(step.to, along, step.edge, rate);
            }
        }
        return best;
    }

    void meet(VertexId v, double label, EdgeId next_edge, const PathRate& rate) {
        if (label >= label_[v]) return;
        if (label_[v] == kFar) met_.push_back(v);
        label_[v] = label;
        next_edge_[v] = next_edge;
        queue_.push_or_lower(v, label + charge(rate, to_root_[v]));
    }

    /// Hangs the vertices from `attach` outwards to where the search began.
    void hang_along(VertexId attach) {
        for (VertexId here = attach; next_edge_[here] >= 0;) {
            const EdgeId edge = next_edge_[here];
            const VertexId outer = network_.across(edge, here);
            tree_.hang(outer, edge);
            from_root_[outer] = from_root_[here] + network_.reach[edge];
            here = outer;
        }
    }

    const SearchNetwork& network_;
    const std::vector<double>& opening_;
    const std::vector<PathLength>& to_root_;
    RouteTree tree_;
    std::vector<PathLength> from_root_;
    std::vector<double> label_;
    std::vector<EdgeId> next_edge_;
    std::vector<VertexId> met_;
    LabelHeap<double> queue_;
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
