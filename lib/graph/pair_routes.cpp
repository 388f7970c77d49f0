#include "graph/pair_routes.hpp"

#include <algorithm>

#include "graph/label_heap.hpp"
#include "graph/pair_routes_tree.hpp"

namespace spadework::graph::pair_routes {

StopRule::StopRule(double seconds, const Progress* progress)
    : end_(std::chrono::steady_clock::now() + std::chrono::duration_cast<std::chrono::steady_clock::duration>(
                                                  std::chrono::duration<double>(std::clamp(seconds, 0.0, 1e7)))),
      progress_(progress) {}

bool StopRule::reached() const {
    if (reached_) return true;
    reached_ = std::chrono::steady_clock::now() >= end_ || (progress_ != nullptr && progress_->should_stop());
    return reached_;
}

double StopRule::seconds_left() const {
    const std::chrono::duration<double> left = end_ - std::chrono::steady_clock::now();
    return std::max(0.0, left.count());
}

namespace {

/// Grows a tree from its first terminal: each search starts from all of the tree.
class Growth {
public:
    Growth(const Network& network, Charge charge)
        : network_(network),
          charge_(charge),
          in_tree_(network.vertex_count, 0),
          label_(network.vertex_count, kLargestCost),
          came_by_(network.vertex_count, -1),
          queue_(network.vertex_count) {}

    void start(VertexId v) { join(v); }

    /// Joins the nearest vertex that is wanted and not yet in the tree; false when none can be reached.
    bool join_nearest(const std::vector<char>& wanted) {
        while (!queue_.empty()) {
            const VertexId here = queue_.pop();
            if (wanted[here] && !in_tree_[here]) {
                add_path_to(here);
                return true;
            }
            expand(here);
        }
        return false;
    }

    std::vector<EdgeId> edges;

private:
    void join(VertexId v) {
        in_tree_[v] = 1;
        label_[v] = 0;
        queue_.push_or_lower(v, 0);
    }

    void expand(VertexId here) {
        for (const Step& step : network_.steps.from(here)) {
            const SharedCostEdge& edge = network_.edges[step.edge];
            const Cost along = add(label_[here], edge.opening + charge_.on(edge));
            if (along >= label_[step.to]) continue;
            label_[step.to] = along;
            came_by_[step.to] = step.edge;
            queue_.push_or_lower(step.to, along);
        }
    }

    void add_path_to(VertexId v) {
        while (!in_tree_[v]) {
            const EdgeId e = came_by_[v];
            const SharedCostEdge& edge = network_.edges[e];
            join(v);
            edges.push_back(e);
            v = edge.tail == v ? edge.head : edge.tail;
        }
    }

    const Network& network_;
    Charge charge_;
    std::vector<char> in_tree_;
    std::vector<Cost> label_;
    std::vector<EdgeId> came_by_;
    LabelHeap<Cost> queue_;
};

}  // namespace

std::optional<std::vector<EdgeId>> joining_tree(const Network& network, std::span<const VertexId> terminals,
                                                Charge charge) {
    if (terminals.empty()) return std::vector<EdgeId>{};
    std::vector<char> wanted(network.vertex_count, 0);
    std::int32_t left = 0;
    for (const VertexId v : terminals) {
        left += wanted[v] ? 0 : 1;
        wanted[v] = 1;
    }
    Growth growth(network, charge);
    growth.start(terminals.front());
    for (--left; left > 0; --left) {
        if (!growth.join_nearest(wanted)) return std::nullopt;
    }
    std::sort(growth.edges.begin(), growth.edges.end());
    return growth.edges;
}

Cost cost_on_tree(const Network& network, std::span<const Pair> pairs, std::span<const EdgeId> tree) {
    Cost total = 0;
    for (const EdgeId e : tree)
        total += network.edges[e].opening;
    if (pairs.empty()) return total;
    const RootedTree laid = rooted(network, tree, pairs.front().from);
    for (const Pair& pair : pairs) {
        for (const EdgeId e : path_between(laid, pair.from, pair.to))
            total += pair.charge.on(network.edges[e]);
    }
    return total;
}

}  // namespace spadework::graph::pair_routes
