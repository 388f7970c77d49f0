#include "layout/added_cable.hpp"

#include <algorithm>

#include "graph/adjacency.hpp"
#include "graph/label_heap.hpp"
#include "graph/saturating.hpp"

namespace spadework {

namespace {

graph::Cost along(const CableFigures& cable, const graph::SharedCostEdge& edge) {
    return graph::path_charge({0, cable.weight, cable.multiplicity}, edge);
}

graph::Cost cost_of_edge(const Network& network, const CableFigures& cable, const std::set<Step>& open,
                         graph::EdgeId edge) {
    const NetworkEdge& origin = network.origin[static_cast<std::size_t>(edge)];
    const graph::SharedCostEdge& charged = network.edges[static_cast<std::size_t>(edge)];
    const bool is_open = open.contains({origin.segment, origin.way});
    return graph::add(is_open ? 0 : charged.opening, along(cable, charged));
}

}  // namespace

AddedCable::AddedCable(const Network& network, const CableFigures& cable, const std::set<Step>& open, PlaceIndex from)
    : AddedCable(network, cable, open, from, everywhere) {}

AddedCable::AddedCable(const Network& network, const CableFigures& cable, const std::set<Step>& open, PlaceIndex from,
                       PlaceIndex to)
    : network_(network),
      cost_(static_cast<std::size_t>(network.vertex_count), graph::kLargestCost),
      last_edge_(cost_.size(), -1) {
    const graph::Adjacency steps(network.vertex_count, network.edges);
    graph::LabelHeap<graph::Cost> queue(cost_.size());
    cost_[static_cast<std::size_t>(from)] = 0;
    queue.push_or_lower(from, 0);
    while (!queue.empty()) {
        const graph::VertexId here = queue.pop();
        if (here == to) return;
        for (const graph::Step& step : steps.from(here)) {
            const graph::Cost cost =
                graph::add(cost_[static_cast<std::size_t>(here)], cost_of_edge(network, cable, open, step.edge));
            if (cost >= cost_[static_cast<std::size_t>(step.to)]) continue;
            cost_[static_cast<std::size_t>(step.to)] = cost;
            last_edge_[static_cast<std::size_t>(step.to)] = step.edge;
            queue.push_or_lower(step.to, cost);
        }
    }
}

std::optional<graph::Cost> AddedCable::cost_to(PlaceIndex to) const {
    const graph::Cost cost = cost_[static_cast<std::size_t>(to)];
    return cost == graph::kLargestCost ? std::nullopt : std::optional(cost);
}

std::vector<graph::EdgeId> AddedCable::way_to(PlaceIndex to) const {
    std::vector<graph::EdgeId> path;
    for (PlaceIndex at = to; last_edge_[static_cast<std::size_t>(at)] >= 0;) {
        path.push_back(last_edge_[static_cast<std::size_t>(at)]);
        const graph::SharedCostEdge& edge = network_.edges[static_cast<std::size_t>(path.back())];
        at = edge.tail == at ? edge.head : edge.tail;
    }
    std::reverse(path.begin(), path.end());
    return path;
}

}  // namespace spadework
