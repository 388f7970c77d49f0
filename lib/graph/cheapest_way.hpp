#pragma once

// The cheapest way of a demand to a tree.

#include <limits>
#include <vector>

#include "graph/label_heap.hpp"
#include "graph/search_network.hpp"

namespace spadework::graph {

class CheapestWay {
public:
    /// `to_root` are the shortest reaches from the tree's root, which steer the search.
    CheapestWay(const SearchNetwork& network, const std::vector<PathLength>& to_root)
        : network_(network),
          to_root_(to_root),
          label_(network.vertex_count, kFar),
          next_edge_(network.vertex_count, -1),
          queue_(network.vertex_count) {}

    /// Finds the way from `start` to a vertex that `holds(v)`, where it costs least: `opening(e, v)` of each edge, v
    /// its end on the tree's side, plus what is paid at the rate all the way to the root, `from_root(v)` away. False
    /// when there is none.
    template <class Holds, class FromRoot, class Opening>
    bool find(VertexId start, const PathRate& rate, Holds holds, FromRoot from_root, Opening opening) {
        VertexId best = -1;
        double best_cost = kFar;
        meet(start, 0.0, -1, rate);
        while (!queue_.empty() && queue_.top_key() < best_cost) {
            const VertexId here = queue_.pop();
            if (holds(here)) {
                const double total = label_[here] + charge(rate, from_root(here));
                if (total < best_cost) {
                    best_cost = total;
                    best = here;
                }
                continue;
            }
            for (const Step& step : network_.steps.from(here)) {
                const double along =
                    label_[here] + opening(step.edge, step.to) + charge(rate, network_.reach[step.edge]);
                meet(step.to, along, step.edge, rate);
            }
        }
        write_way(best);
        forget();
        return best >= 0;
    }

    /// What was found: vertices from the tree's to the start, and the edges between.
    [[nodiscard]] const std::vector<VertexId>& way() const { return way_; }
    [[nodiscard]] const std::vector<EdgeId>& edges() const { return edges_; }

private:
    static constexpr double kFar = std::numeric_limits<double>::infinity();

    void meet(VertexId v, double label, EdgeId next_edge, const PathRate& rate) {
        if (label >= label_[v]) return;
        if (label_[v] == kFar) met_.push_back(v);
        label_[v] = label;
        next_edge_[v] = next_edge;
        queue_.push_or_lower(v, label + charge(rate, to_root_[v]));
    }
    void write_way(VertexId attach) {
        way_.clear();
        edges_.clear();
        if (attach < 0) return;
        way_.push_back(attach);
        while (next_edge_[way_.back()] >= 0) {
            edges_.push_back(next_edge_[way_.back()]);
            way_.push_back(network_.across(edges_.back(), way_.back()));
        }
    }
    void forget() {
        for (const VertexId v : met_)
            label_[v] = kFar;
        met_.clear();
        queue_.clear();
    }

    const SearchNetwork& network_;
    const std::vector<PathLength>& to_root_;
    std::vector<double> label_;
    std::vector<EdgeId> next_edge_;
    std::vector<VertexId> met_;
    std::vector<VertexId> way_;
    std::vector<EdgeId> edges_;
    LabelHeap<double> queue_;
};

}  // namespace spadework::graph
