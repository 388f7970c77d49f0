#pragma once

// Cheapest paths where what a path pays for its length is no straight line: steps of what is sold, jumps.

#include <algorithm>
#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "graph/adjacency.hpp"
#include "graph/label_heap.hpp"
#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// What a path pays for its length: never falls with it, and is never below `base + slope * length`.
struct LengthPrice {
    std::function<Cost(Length)> price;
    Cost base = 0;
    Cost slope = 0;  ///< A length unit.
};

/// What passing each edge costs beside its length, from its tail to its head and the other way.
using ArcCosts = std::array<std::vector<Cost>, 2>;

/// Finds, for one network, the least that any path costs: the sum of its arcs' costs and the price of its length.
class SteppedWays {
public:
    /// Keeps a reference to the edges, of which only ends and lengths count.
    SteppedWays(VertexId vertex_count, const std::vector<SharedCostEdge>& edges);

    /// Paths shall end at `target`, and arcs cost that much (kept by reference); prices have this slope or a higher
    /// one. Where paths begin at one vertex only, `start`, no more of the network is looked at than it takes.
    void aim_at(VertexId target, const ArcCosts& costs, Cost slope, std::optional<VertexId> start = {});

    /// What the cheapest path from a vertex to the target would cost were its length paid by the slope alone. Where
    /// the start was told, so much or less, save from there; kLargestCost where there is no path.
    [[nodiscard]] Cost straight_from(VertexId vertex) const {
        return std::min(straight_[static_cast<std::size_t>(vertex)], looked_at_);
    }

    /// No path from `start` to the target costs less; some path costs just that, unless more than `most_labels` ways
    /// of beginning one had to be kept. kLargestCost where there is no path. Labels with two figures, of which those
    /// beaten in both are dropped, in the order of what they come to at least (Hart, Nilsson, Raphael 1968; Martins
    /// 1984).
    [[nodiscard]] Cost least_from(VertexId start, const LengthPrice& price, std::size_t most_labels) const {
        return cheapest_from(start, price, most_labels).least;
    }

    /// A path from the start to the target, and what no path undercuts.
    struct Cheapest {
        Cost least = 0;
        Cost cost = 0;             ///< Of the path; kLargestCost where none was found.
        std::vector<EdgeId> path;  ///< From the start.
    };
    [[nodiscard]] Cheapest cheapest_from(VertexId start, const LengthPrice& price, std::size_t most_labels) const;

private:
    struct Label {
        Cost least = 0;  ///< What any path that begins so comes to at least.
        Cost cost = 0;
        Length length = 0;
        VertexId at = 0;
        std::int32_t before = -1;  ///< Number of the beginning that it goes on from, among those kept.
        EdgeId by = -1;
    };
    class Beginnings;

    const std::vector<SharedCostEdge>& edges_;
    Adjacency steps_;
    const ArcCosts* costs_ = nullptr;
    VertexId target_ = 0;
    std::vector<Cost> straight_;
    Cost looked_at_ = 0;  ///< How far the network was looked at.
    LabelHeap<Cost> queue_;
};

}  // namespace spadework::graph
