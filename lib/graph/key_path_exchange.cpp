#include "graph/key_path_exchange.hpp"

#include <limits>

namespace spadework::graph {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr double kWorthIt = 1e-9;  ///< Least relative gain taken, so that rounding cannot make the search circle.

}  // namespace

KeyPathExchange::KeyPathExchange(const SearchNetwork& network, const std::vector<PathLength>& to_root, LiveTree& tree)
    : network_(network),
      to_root_(to_root),
      tree_(tree),
      label_(network.vertex_count, kFar),
      next_edge_(network.vertex_count, -1),
      on_old_path_(network.vertex_count, 0),
      is_below_(network.vertex_count, 0),
      turn_cost_(network.vertex_count, 0.0),
      queue_(network.vertex_count) {}

double KeyPathExchange::exchange_above(VertexId top, std::size_t most_below) {
    if (!tree_.list_below(top, below_, most_below)) return 0.0;
    const double old_cost = take_old_path(top);
    start_from_below(top);
    double new_cost = old_cost - kWorthIt * (1.0 + old_cost);
    const VertexId attach = cheapest_attachment(top, new_cost);
    if (attach >= 0) rehang(top, attach);
    forget();
    return attach >= 0 ? old_cost - new_cost : 0.0;
}

/// Marks the inner vertices of the key path above `top`; returns what hanging `top` costs now.
double KeyPathExchange::take_old_path(VertexId top) {
    const LiveTree::Node& node = tree_.at(top);
    double cost = charge(node.carried, node.from_root) + network_.opening[node.up];
    VertexId v = tree_.parent(top);
    for (; tree_.is_passing(v); v = tree_.parent(v)) {
        old_path_.push_back(v);
        on_old_path_[v] = 1;
        cost += network_.opening[tree_.at(v).up];
    }
    return cost;
}

/// Starting labels: what it costs, against now, to hang the part below `top` by each of its vertices.
void KeyPathExchange::start_from_below(VertexId top) {
    const PathRate& all = tree_.at(top).carried;
    for (const VertexId v : below_) {
        is_below_[v] = 1;
        if (v == top) {
            turn_cost_[v] = 0.0;
        } else {
            const PathRate& below = tree_.at(v).carried;
            const PathRate change{all.weight - 2 * below.weight, all.multiplicity - 2 * below.multiplicity};
            turn_cost_[v] = turn_cost_[tree_.parent(v)] + charge(change, network_.reach[tree_.at(v).up]);
        }
        meet(v, turn_cost_[v], -1, all);
    }
}

void KeyPathExchange::meet(VertexId v, double label, EdgeId next_edge, const PathRate& rate) {
    if (label >= label_[v]) return;
    if (label_[v] == kFar) met_.push_back(v);
    label_[v] = label;
    next_edge_[v] = next_edge;
    queue_.push_or_lower(v, label + charge(rate, to_root_[v]));
}

/// The vertex of the rest of the tree to hang from, where that costs less than `limit`, which falls to its cost; -1
/// otherwise.
VertexId KeyPathExchange::cheapest_attachment(VertexId top, double& limit) {
    const PathRate rate = tree_.at(top).carried;
    VertexId best = -1;
    while (!queue_.empty() && queue_.top_key() < limit) {
        const VertexId here = queue_.pop();
        if (tree_.holds(here) && !is_below_[here] && !on_old_path_[here]) {
            const double total = label_[here] + charge(rate, tree_.at(here).from_root);
            if (total < limit) {
                limit = total;
                best = here;
            }
            continue;
        }
        for (const Step& step : network_.steps.from(here)) {
            if (is_below_[step.to]) continue;
            const double along = label_[here] + network_.opening[step.edge] + charge(rate, network_.reach[step.edge]);
            meet(step.to, along, step.edge, rate);
        }
    }
    return best;
}

void KeyPathExchange::rehang(VertexId top, VertexId attach) {
    way_.assign(1, attach);
    way_edges_.clear();
    while (next_edge_[way_.back()] >= 0) {
        way_edges_.push_back(next_edge_[way_.back()]);
        way_.push_back(network_.across(way_edges_.back(), way_.back()));
    }
    tree_.rehang(top, way_, way_edges_);
}

void KeyPathExchange::forget() {
    for (const VertexId v : old_path_)
        on_old_path_[v] = 0;
    for (const VertexId v : below_)
        is_below_[v] = 0;
    for (const VertexId v : met_)
        label_[v] = kFar;
    old_path_.clear();
    met_.clear();
    queue_.clear();
}

}  // namespace spadework::graph
