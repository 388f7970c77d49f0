// Local search on the tree: take out the path between two branching points or ends, and join the two halves again by
// the path that is cheapest when everything that crosses is carried along, wherever it leaves and enters.

#include <algorithm>

#include "graph/label_heap.hpp"
#include "graph/pair_routes.hpp"
#include "graph/pair_routes_tree.hpp"

namespace spadework::graph::pair_routes {

namespace {

/// A stretch [first, last) of tree positions with another stretch [hole_first, hole_last) left out.
struct Part {
    std::int32_t first = 0;
    std::int32_t last = 0;
    std::int32_t hole_first = 0;
    std::int32_t hole_last = 0;

    [[nodiscard]] bool has(std::int32_t p) const {
        return p >= first && p < last && !(p >= hole_first && p < hole_last);
    }
    [[nodiscard]] std::int32_t size() const { return last - first - (hole_last - hole_first); }
};

class PathExchange {
public:
    PathExchange(const Network& network, std::span<const Pair> pairs, std::vector<EdgeId> tree)
        : network_(network),
          pairs_(pairs),
          keep_(network.vertex_count, 0),
          label_(network.vertex_count, kLargestCost),
          came_by_(network.vertex_count, -1),
          queue_(network.vertex_count) {
        for (const Pair& pair : pairs)
            keep_[pair.from] = keep_[pair.to] = 1;
        take(std::move(tree));
    }

    /// Tries every path of the tree once, deepest first by position, but those that were tried on the very tree; true
    /// when the tree changed.
    bool pass(const StopRule& stop) {
        bool changed = false;
        for (std::int32_t p = tree_.count() - 1; p > 0; --p) {
            if (!changed && p < last_change_) return false;
            if (p >= tree_.count()) continue;
            if (!is_joint(p)) continue;
            if (stop.reached()) return false;
            if (!exchange_above(p)) continue;
            changed = true;
            last_change_ = p;
        }
        return changed;
    }

    [[nodiscard]] const std::vector<EdgeId>& edges() const { return edges_; }

private:
    void take(std::vector<EdgeId> tree) {
        const VertexId root = pairs_.front().from;
        edges_ = pruned(network_, tree, root, keep_);
        tree_ = rooted(network_, edges_, root);
        children_.assign(tree_.vertex.size(), 0);
        for (std::int32_t p = 1; p < tree_.count(); ++p)
            ++children_[tree_.parent[p]];
        potential_.assign(tree_.vertex.size(), 0);
        weight_below_.resize(tree_.vertex.size());
    }

    [[nodiscard]] bool is_joint(std::int32_t p) const {
        return p == 0 || keep_[tree_.vertex[p]] != 0 || children_[p] >= 2;
    }

    [[nodiscard]] bool below(std::int32_t p, std::int32_t top) const { return p >= top && p < top + tree_.size[top]; }

    /// For every position of the part: what the crossing pairs pay from their ends in the part to there.
    void fill_potentials(const Part& part, std::span<const Pair* const> crossing) {
        for (std::int32_t p = part.first; p < part.last; ++p)
            weight_below_[p] = {};
        for (const Pair* pair : crossing) {
            const std::int32_t a = tree_.place[pair->from];
            weight_below_[part.has(a) ? a : tree_.place[pair->to]] += pair->charge;
        }
        Cost at_top = 0;
        for (std::int32_t p = part.last - 1; p > part.first; --p) {
            if (!part.has(p)) continue;
            at_top += weight_below_[p].on(network_.edges[tree_.edge[p]]);
            weight_below_[tree_.parent[p]] += weight_below_[p];
        }
        const Charge all = weight_below_[part.first];
        potential_[part.first] = at_top;
        for (std::int32_t p = part.first + 1; p < part.last; ++p) {
            if (!part.has(p)) continue;
            const SharedCostEdge& edge = network_.edges[tree_.edge[p]];
            potential_[p] = potential_[tree_.parent[p]] + all.on(edge) - 2 * weight_below_[p].on(edge);
        }
    }

    bool exchange_above(std::int32_t low) {
        std::int32_t top = low;  // The highest position of the path below its upper end.
        Cost path = 0;
        Charge carried;
        crossing_.clear();
        for (const Pair& pair : pairs_) {
            if (below(tree_.place[pair.from], low) == below(tree_.place[pair.to], low)) continue;
            crossing_.push_back(&pair);
            carried += pair.charge;
        }
        const auto edge_cost = [&](EdgeId e) { return network_.edges[e].opening + carried.on(network_.edges[e]); };
        path += edge_cost(tree_.edge[low]);
        while (!is_joint(tree_.parent[top])) {
            top = tree_.parent[top];
            path += edge_cost(tree_.edge[top]);
        }
        const Part lower{low, low + tree_.size[low], 0, 0};
        const Part upper{0, tree_.count(), top, top + tree_.size[top]};
        fill_potentials(lower, crossing_);
        fill_potentials(upper, crossing_);
        const Cost now = potential_[tree_.parent[top]] + path + potential_[low];
        const bool upwards = lower.size() <= upper.size();
        const Part& from = upwards ? lower : upper;
        const VertexId entry = cheapest_entry(from, upwards ? upper : lower, carried, now);
        if (entry >= 0) rebuild(low, top, from, entry);
        forget_labels();
        return entry >= 0;
    }

    void meet(VertexId v, Cost label, EdgeId by) {
        if (label >= label_[v]) return;
        if (label_[v] == kLargestCost) met_.push_back(v);
        label_[v] = label;
        came_by_[v] = by;
        queue_.push_or_lower(v, label);
    }

    /// The vertex of one part where the cheapest joining path from the other enters it, or -1 when none beats `now`.
    VertexId cheapest_entry(const Part& from, const Part& into, Charge carried, Cost now) {
        Cost least = kLargestCost;
        for (std::int32_t p = into.first; p < into.last; ++p) {
            if (into.has(p)) least = std::min(least, potential_[p]);
        }
        for (std::int32_t p = from.first; p < from.last; ++p) {
            if (from.has(p) && potential_[p] + least < now) meet(tree_.vertex[p], potential_[p], -1);
        }
        VertexId best = -1;
        while (!queue_.empty() && queue_.top_key() + least < now) {
            const VertexId here = queue_.pop();
            const std::int32_t place = tree_.place[here];
            if (place >= 0 && into.has(place)) {
                if (label_[here] + potential_[place] < now) {
                    now = label_[here] + potential_[place];
                    best = here;
                }
                continue;
            }
            for (const Step& step : network_.steps.from(here)) {
                const std::int32_t to = tree_.place[step.to];
                if (to >= 0 && from.has(to)) continue;
                const SharedCostEdge& edge = network_.edges[step.edge];
                const Cost along = add(label_[here], edge.opening + carried.on(edge));
                if (add(along, least) < now) meet(step.to, along, step.edge);
            }
        }
        queue_.clear();
        return best;
    }

    void rebuild(std::int32_t low, std::int32_t top, const Part& from, VertexId entry) {
        std::vector<char> dropped(network_.edges.size(), 0);
        for (std::int32_t p = low;; p = tree_.parent[p]) {
            dropped[tree_.edge[p]] = 1;
            if (p == top) break;
        }
        std::vector<EdgeId> tree;
        for (const EdgeId e : edges_) {
            if (!dropped[e]) tree.push_back(e);
        }
        for (VertexId v = entry; came_by_[v] >= 0;) {
            const SharedCostEdge& edge = network_.edges[came_by_[v]];
            tree.push_back(came_by_[v]);
            v = edge.tail == v ? edge.head : edge.tail;
            if (tree_.place[v] >= 0 && from.has(tree_.place[v])) break;
        }
        take(std::move(tree));
    }

    void forget_labels() {
        for (const VertexId v : met_) {
            label_[v] = kLargestCost;
            came_by_[v] = -1;
        }
        met_.clear();
    }

    const Network& network_;
    std::span<const Pair> pairs_;
    std::vector<char> keep_;
    std::vector<EdgeId> edges_;
    RootedTree tree_;
    std::vector<std::int32_t> children_;
    std::int32_t last_change_ = 0;  ///< By position: paths below it were tried on the tree as it is.
    std::vector<Cost> potential_;
    std::vector<Charge> weight_below_;
    std::vector<const Pair*> crossing_;
    std::vector<Cost> label_;
    std::vector<EdgeId> came_by_;
    std::vector<VertexId> met_;
    LabelHeap<Cost> queue_;
};

}  // namespace

std::vector<EdgeId> improved_tree(const Network& network, std::span<const Pair> pairs, std::vector<EdgeId> tree,
                                  const StopRule& stop) {
    if (pairs.empty()) return {};
    PathExchange exchange(network, pairs, std::move(tree));
    while (!stop.reached() && exchange.pass(stop)) {
    }
    return exchange.edges();
}

}  // namespace spadework::graph::pair_routes
