#pragma once

// One exchange of a key path for a cheaper one.

#include <limits>
#include <vector>

#include "graph/label_heap.hpp"
#include "graph/live_tree.hpp"

namespace spadework::graph {

class KeyPathExchange {
public:
    /// `to_root` are the shortest reaches from the tree's root, which steer the search.
    KeyPathExchange(const SearchNetwork& network, const std::vector<PathLength>& to_root, LiveTree& tree);

    /// Looks for a cheaper way to hang what is at and below the key vertex `top`, by any of its vertices and from any
    /// other vertex of the tree, and takes the cheapest; returns what that saves, 0 when there is none or when the part
    /// has more than `most_below` vertices.
    double exchange_above(VertexId top, std::size_t most_below = std::numeric_limits<std::size_t>::max());

private:
    double take_old_path(VertexId top);
    void start_from_below(VertexId top);  ///< Of `below_`.
    void meet(VertexId v, double label, EdgeId next_edge, const PathRate& rate);
    VertexId cheapest_attachment(VertexId top, double& limit);
    void rehang(VertexId top, VertexId attach);
    void forget();

    const SearchNetwork& network_;
    const std::vector<PathLength>& to_root_;
    LiveTree& tree_;
    std::vector<double> label_;
    std::vector<EdgeId> next_edge_;
    std::vector<char> on_old_path_;
    std::vector<char> is_below_;
    std::vector<double> turn_cost_;
    std::vector<VertexId> old_path_;
    std::vector<VertexId> below_;
    std::vector<VertexId> met_;
    std::vector<VertexId> way_;
    std::vector<EdgeId> way_edges_;
    LabelHeap<double> queue_;
};

}  // namespace spadework::graph
