#pragma once

// Routes for pairs that need not make up a tree: a second way round may be worth its trench.

#include <vector>

#include "graph/label_heap.hpp"
#include "graph/pair_routes.hpp"

namespace spadework::graph::pair_routes {

/// A path for each pair, and how many of them use each edge. What the pairs pay and the openings of used edges are kept
/// summed up.
class RouteSet {
public:
    explicit RouteSet(const Network& network);

    /// Gives every pair its cheapest path, one after the other, where edges of `open` cost no opening. Nothing of an
    /// earlier set stays.
    void lay(const std::vector<Pair>& pairs, const std::vector<EdgeId>& open);

    /// Lays one path anew at a time while that lowers the cost, and closes stretches of edges whose users can go round
    /// more cheaply together. Heuristic.
    void improve(const StopRule& stop);

    [[nodiscard]] Cost cost() const { return cost_; }
    [[nodiscard]] const std::vector<std::vector<EdgeId>>& paths() const { return paths_; }
    [[nodiscard]] std::vector<EdgeId> open_edges() const;

    /// Cheapest costs from a vertex to every other for one more cable of this charge: opening counts on edges not used.
    [[nodiscard]] std::vector<Cost> costs_from(VertexId from, Charge charge);

private:
    void search(VertexId from, VertexId to, Charge charge, Cost limit);
    void take_up(std::size_t pair);
    bool lay_down(std::size_t pair, Cost limit);
    void put(std::size_t pair, std::vector<EdgeId> path);
    bool reroute(std::size_t pair);
    bool close(EdgeId edge);
    void forget();

    const Network& network_;
    std::vector<Pair> pairs_;
    std::vector<std::vector<EdgeId>> paths_;
    std::vector<std::int32_t> uses_;
    std::vector<char> free_;  ///< Edges that count as open though nobody uses them yet.
    EdgeId banned_ = -1;
    Cost cost_ = 0;
    std::vector<Cost> label_;
    std::vector<EdgeId> came_by_;
    std::vector<VertexId> met_;
    LabelHeap<Cost> queue_;
};

}  // namespace spadework::graph::pair_routes
