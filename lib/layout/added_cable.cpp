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

std::vector<graph::Cost> cost_of_edges(const Network& network, const CableFigures& cable, const std::set<Step>& open) {
    std::vector<graph::Cost> costs;
    costs.reserve(network.edges.size());
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        const NetworkEdge& origin = network.origin[e];
        const bool is_open = open.contains({origin.segment, origin.way});
        costs.push_back(graph::add(is_open ? 0 : network.edges[e].opening, along(cable, network.edges[e])));
    }
    return costs;
}

}  // namespace

AddedCable::AddedCable(const Network& network, const CableFigures& cable, const std::set<Step>& open, PlaceIndex from)
    : network_(network),
      cost_(static_cast<std::size_t>(network.vertex_count), graph::kLargestCost),
      last_edge_(cost_.size(), -1) {
    const std::vector<graph::Cost> edge_cost = cost_of_edges(network, cable, open);
    const graph::Adjacency steps(network.vertex_count, network.edges);
    graph::LabelHeap<graph::Cost> queue(cost_.size());
    cost_[static_cast<std::size_t>(from)] = 0;
    queue.push_or_lower(from, 0);
    while (!queue.empty()) {
        const graph::VertexId here = queue.pop();
        for (const graph::Step& step : steps.from(here)) {
            const graph::Cost cost =
                graph::add(cost_[static_cast<std::size_t>(here)], edge_cost[static_cast<std::size_t>(step.edge)]);
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
