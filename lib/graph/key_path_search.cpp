#include "graph/key_path_search.hpp"

#include <algorithm>
#include <limits>

#include "graph/label_heap.hpp"

namespace spadework::graph {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr double kWorthIt = 1e-9;  ///< Least relative gain taken, so that rounding cannot make the search circle.

class KeyPathSearch {
public:
    KeyPathSearch(const SearchNetwork& network, const std::vector<double>& opening,
                  const std::vector<PathLength>& to_root, RouteTree& tree)
        : network_(network),
          opening_(opening),
          to_root_(to_root),
          tree_(tree),
          view_(network, tree),
          label_(network.vertex_count, kFar),
          next_edge_(network.vertex_count, -1),
          on_old_path_(network.vertex_count, 0),
          queue_(network.vertex_count) {}

    void improve() {
        for (bool better = true; better;) {
            better = false;
            const std::vector<VertexId> candidates(view_.order.rbegin(), view_.order.rend());
            for (const VertexId v : candidates) {
                if (!tree_.holds(v) || !is_key(v)) continue;
                better = exchange_above(v) || better;
            }
        }
    }

private:
    [[nodiscard]] bool is_key(VertexId v) const {
        return v != tree_.root() && (view_.has_demand[v] || view_.child_count[v] >= 2);
    }

    [[nodiscard]] bool is_below(VertexId v, VertexId top) const {
        return tree_.holds(v) && view_.place[v] >= view_.place[top] &&
               view_.place[v] < view_.place[top] + view_.size_below[top];
    }

    /// Looks for a cheaper way to hang what is at and below `top`.
    bool exchange_above(VertexId top) {
        const double old_cost = take_old_path(top);
        start_from_below(top);
        const VertexId attach = cheapest_attachment(top, old_cost - kWorthIt * (1.0 + old_cost));
        if (attach >= 0) rehang(top, attach);
        for (const VertexId v : old_path_)
            on_old_path_[v] = 0;
        for (const VertexId v : met_)
            label_[v] = kFar;
        met_.clear();
        queue_.clear();
        if (attach >= 0) view_ = TreeView(network_, tree_);
        return attach >= 0;
    }

    /// Marks the inner vertices of the key path above `top`; returns what hanging `top` costs now.
    double take_old_path(VertexId top) {
        old_path_.clear();
        double cost = charge(view_.carried[top], view_.from_root[top]) + opening_[tree_.parent_edge(top)];
        VertexId v = tree_.parent(network_, top);
        while (v != tree_.root() && !view_.has_demand[v] && view_.child_count[v] == 1) {
            old_path_.push_back(v);
            on_old_path_[v] = 1;
            cost += opening_[tree_.parent_edge(v)];
            v = tree_.parent(network_, v);
        }
        return cost;
    }

    /// Starting labels: what it costs, against now, to hang the part below `top` by each of its vertices.
    void start_from_below(VertexId top) {
        const PathRate& all = view_.carried[top];
        turn_cost_.assign(view_.size_below[top], 0.0);
        for (std::size_t i = 0; i < view_.size_below[top]; ++i) {
            const VertexId v = view_.depth_first[view_.place[top] + i];
            if (v != top) {
                const PathRate& below = view_.carried[v];
                const PathRate change{all.weight - 2 * below.weight, all.multiplicity - 2 * below.multiplicity};
                const VertexId up = tree_.parent(network_, v);
                turn_cost_[i] = turn_cost_[view_.place[up] - view_.place[top]] +
                                charge(change, network_.reach[tree_.parent_edge(v)]);
            }
            meet(v, turn_cost_[i], -1, all);
        }
    }

    void meet(VertexId v, double label, EdgeId next_edge, const PathRate& rate) {
        if (label >= label_[v]) return;
        if (label_[v] == kFar) met_.push_back(v);
        label_[v] = label;
        next_edge_[v] = next_edge;
        queue_.push_or_lower(v, label + charge(rate, to_root_[v]));
    }

    /// The vertex of the rest of the tree to hang from, where that costs less than `limit`; -1 otherwise.
    VertexId cheapest_attachment(VertexId top, double limit) {
        const PathRate& rate = view_.carried[top];
        VertexId best = -1;
        while (!queue_.empty() && queue_.top_key() < limit) {
            const VertexId here = queue_.pop();
            const bool below = is_below(here, top);
            if (tree_.holds(here) && !below && !on_old_path_[here]) {
                const double total = label_[here] + charge(rate, view_.from_root[here]);
                if (total < limit) {
                    limit = total;
                    best = here;
                }
                continue;
            }
            for (const Step& step : network_.steps.from(here)) {
                if (is_below(step.to, top)) continue;
                const double along = label_[here] + opening_[step.edge] + charge(rate, network_.reach[step.edge]);
                meet(step.to, along, step.edge, rate);
            }
        }
        return best;
    }

    void rehang(VertexId top, VertexId attach) {
        std::vector<VertexId> way{attach};
        while (next_edge_[way.back()] >= 0)
            way.push_back(network_.across(next_edge_[way.back()], way.back()));
        for (const VertexId v : old_path_)
            tree_.drop(v);
        turn_below(top, way.back());
        for (std::size_t i = 0; i + 1 < way.size(); ++i)
            tree_.hang(way[i + 1], next_edge_[way[i]]);
    }

    /// Turns the parent edges between `top` and the new hanging vertex, which is left without one.
    void turn_below(VertexId top, VertexId hanging) {
        EdgeId down = -1;
        for (VertexId here = hanging;;) {
            const EdgeId up = tree_.parent_edge(here);
            const VertexId above = here == top ? -1 : network_.across(up, here);
            tree_.hang(here, down);
            if (here == top) break;
            down = up;
            here = above;
        }
    }

    const SearchNetwork& network_;
    const std::vector<double>& opening_;
    const std::vector<PathLength>& to_root_;
    RouteTree& tree_;
    TreeView view_;
    std::vector<double> label_;
    std::vector<EdgeId> next_edge_;
    std::vector<char> on_old_path_;
    std::vector<VertexId> old_path_;
    std::vector<double> turn_cost_;
    std::vector<VertexId> met_;
    LabelHeap<double> queue_;
};

}  // namespace

void exchange_key_paths(const SearchNetwork& network, const std::vector<double>& opening,
                        const std::vector<PathLength>& to_root, RouteTree& tree) {
    KeyPathSearch(network, opening, to_root, tree).improve();
}

}  // namespace spadework::graph
