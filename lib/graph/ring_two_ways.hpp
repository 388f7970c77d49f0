#pragma once

// Cheapest ways over a LinkNetwork that share no link but bridges.

#include <optional>
#include <utility>
#include <vector>

#include "graph/label_heap.hpp"
#include "graph/ring_links.hpp"
#include "graph/saturating.hpp"

namespace spadework::graph::rings {

using LinkPath = std::vector<std::int32_t>;  ///< Links in order.

/// Searches with buffers of its own. A link with a negative price may not be used.
class WaySearch {
public:
    explicit WaySearch(const LinkNetwork& network);

    /// The cheapest way; nothing when there is none that costs less than `below`.
    std::optional<LinkPath> one_way(VertexId from, VertexId to, const std::vector<Cost>& price,
                                    Cost below = kLargestCost);

    /// What the cheapest way to each vertex costs. Valid until the next search; the largest Cost where there is none.
    const std::vector<Cost>& all_from(VertexId from, const std::vector<Cost>& price);

    /// Two ways from one vertex, the first to `to_first`, the second to `to_second` (which may be the same), that share
    /// no link but bridges and together cost least, a bridge being paid by each (Suurballe and Tarjan 1984, with
    /// potentials after Johnson 1977). Nothing when there are none that cost less than `below`.
    std::optional<std::pair<LinkPath, LinkPath>> two_ways(VertexId from, VertexId to_first, VertexId to_second,
                                                          const std::vector<Cost>& price, Cost below = kLargestCost);

    /// The links of such two ways to one vertex and what they cost, in no order.
    struct Flow {
        Cost cost = 0;
        LinkPath links;
    };
    std::optional<Flow> two_flows(VertexId from, VertexId to, const std::vector<Cost>& price);

    /// From now on `two_flows` lead to `to`, and no link is cheaper than in `least_price`: they are looked for first
    /// where ways at these prices lead (after Hart, Nilsson and Raphael 1968). Links in `least_price` may be used.
    void aim_at(VertexId to, const std::vector<Cost>& least_price);

private:
    struct Tip {
        VertexId at = -1;
        Cost cost = 0;
    };
    const std::vector<Cost>& distances();
    template <bool first>
    Tip reach(VertexId from, VertexId a, VertexId b, const std::vector<Cost>& price, Cost below = kLargestCost);
    void relax(VertexId at, Cost label, const LinkStep& step);
    void relax_first(VertexId at, const LinkStep& step, const std::vector<Cost>& price);
    void relax_second(VertexId at, const LinkStep& step, const std::vector<Cost>& price);
    void note_potentials(Cost furthest);
    void push_flow(VertexId from, VertexId to);
    std::pair<LinkPath, VertexId> follow(VertexId from, VertexId a, VertexId b);
    bool flow_twice(VertexId from, VertexId a, VertexId b, const std::vector<Cost>& price, Cost below);
    void forget_labels();
    void forget_flow();

    const LinkNetwork& network_;
    std::vector<Cost> label_;
    std::vector<Cost> distance_;
    std::vector<std::int32_t> came_by_;
    std::vector<VertexId> met_;
    std::vector<Cost> potential_;
    std::vector<VertexId> raised_;
    std::vector<Cost> ahead_;  ///< By vertex: what the way on to the goal costs at least; 0 without one.
    Cost furthest_ = 0;
    std::vector<std::int8_t> flow_;  ///< For each link, tail to head counted positive.
    LinkPath flowing_;
    Cost flow_cost_ = 0;
    LabelHeap<Cost> queue_;
    std::vector<VertexId> as_near_;  ///< What is as near as the vertex taken from the queue last.
};

}  // namespace spadework::graph::rings
