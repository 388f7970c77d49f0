#pragma once

// Routes for pairs that need not make up a tree: a second way round may be worth its trench.

#include <optional>
#include <span>
#include <vector>

#include "graph/hop_charge.hpp"
#include "graph/label_heap.hpp"
#include "graph/pair_routes.hpp"

namespace spadework::graph::pair_routes {

/// A path for each pair, and how many of them use each edge. What the pairs pay and the openings of used edges are kept
/// summed up.
class RouteSet {
public:
    explicit RouteSet(const Network& network);

    /// From here on paths that span more than they may are charged for it. Spans are by edge and outlive the set; none
    /// where paths may be of any length.
    void limit(std::span<const Length> spans, const HopCharge& charge);

    /// Gives every pair its cheapest path, one after the other, where edges of `open` cost no opening. Nothing of an
    /// earlier set stays.
    void lay(const std::vector<Pair>& pairs, const std::vector<EdgeId>& open);

    /// Lays one path anew at a time while that lowers the cost, and closes stretches of edges whose users can go round
    /// more cheaply together. Heuristic.
    void improve(const StopRule& stop);

    /// With what paths too long are charged.
    [[nodiscard]] Cost cost() const { return cost_; }
    [[nodiscard]] const std::vector<std::vector<EdgeId>>& paths() const { return paths_; }
    [[nodiscard]] std::vector<EdgeId> open_edges() const;

    /// Cheapest costs from a vertex to every other for one more cable of this charge: opening counts on edges not used,
    /// and so does what the path is charged for its length, be it the cheapest or the shortest.
    [[nodiscard]] std::vector<Cost> costs_from(VertexId from, Charge charge);

private:
    void search(VertexId from, VertexId to, Charge charge, Cost limit, const Weighing* weighing = nullptr);
    std::optional<std::vector<EdgeId>> cheapest(const Pair& pair, Cost limit, const Weighing* weighing = nullptr);
    [[nodiscard]] MeasuredWays measured(const Pair& pair, const std::vector<EdgeId>& path) const;
    [[nodiscard]] VertexId other_end(EdgeId edge, VertexId v) const {
        return network_.edges[edge].tail == v ? network_.edges[edge].head : network_.edges[edge].tail;
    }
    [[nodiscard]] Cost price(EdgeId edge, Charge charge) const;
    [[nodiscard]] Cost charge_of(const std::vector<EdgeId>& path) const;
    bool charge_found(VertexId from, Charge charge, std::vector<Cost>& costs) const;
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
    std::span<const Length> spans_;
    HopCharge too_long_;
    Cost cost_ = 0;
    std::vector<Cost> label_;
    std::vector<EdgeId> came_by_;
    std::vector<VertexId> met_;
    LabelHeap<Cost> queue_;
};

}  // namespace spadework::graph::pair_routes
