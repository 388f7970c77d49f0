#include "graph/search_network.hpp"

#include <limits>

#include "graph/label_heap.hpp"

namespace spadework::graph {

namespace {

/// A demand whose proportion of weight to multiplicity stands for all.
PathRate common_proportion(const SharedCostProblem& problem) {
    for (const Demand& demand : problem.demands) {
        if (demand.weight > 0 || demand.multiplicity > 0) {
            return {static_cast<double>(demand.weight), static_cast<double>(demand.multiplicity)};
        }
    }
    return {1.0, 0.0};
}

void take_as_one_measure(const SharedCostProblem& problem, SearchNetwork& network) {
    bool any_length = false;
    bool any_passage = false;
    for (const SharedCostEdge& edge : problem.edges) {
        any_length = any_length || edge.length > 0;
        any_passage = any_passage || edge.passage > 0;
    }
    PathRate unit{1.0, 0.0};
    if (any_length && any_passage) {
        unit = common_proportion(problem);
    } else if (any_passage) {
        unit = {0.0, 1.0};
    }
    for (PathLength& reach : network.reach)
        reach = {charge(unit, reach), 0.0};
    for (PathRate& rate : network.rate) {
        rate = {unit.weight > 0.0 ? rate.weight / unit.weight : rate.multiplicity / unit.multiplicity, 0.0};
    }
}

template <class LengthOf>
std::vector<double> shortest(const SearchNetwork& network, const std::vector<VertexId>& from, LengthOf length_of) {
    std::vector<double> distance(network.vertex_count, std::numeric_limits<double>::infinity());
    LabelHeap<double> queue(network.vertex_count);
    for (const VertexId v : from) {
        distance[v] = 0.0;
        queue.push_or_lower(v, 0.0);
    }
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (const Step& step : network.steps.from(here)) {
            const double along = distance[here] + length_of(step.edge);
            if (along >= distance[step.to]) continue;
            distance[step.to] = along;
            queue.push_or_lower(step.to, along);
        }
    }
    return distance;
}

}  // namespace

SearchNetwork::SearchNetwork(const SharedCostProblem& problem, bool measured_alike)
    : vertex_count(problem.vertex_count), one_measure(measured_alike), steps(problem.vertex_count, problem.edges) {
    for (const SharedCostEdge& edge : problem.edges) {
        tail.push_back(edge.tail);
        head.push_back(edge.head);
        opening.push_back(static_cast<double>(edge.opening));
        reach.push_back({static_cast<double>(edge.length), static_cast<double>(edge.passage)});
    }
    for (const Demand& demand : problem.demands) {
        demand_at.push_back(demand.at);
        rate.push_back({static_cast<double>(demand.weight), static_cast<double>(demand.multiplicity)});
    }
    for (const RootOption& root : problem.roots) {
        root_at.push_back(root.at);
        root_cost.push_back(static_cast<double>(root.cost));
    }
    if (one_measure) take_as_one_measure(problem, *this);
}

std::vector<PathLength> shortest_reach(const SearchNetwork& network, const std::vector<VertexId>& from) {
    const auto lengths = shortest(network, from, [&](EdgeId e) { return network.reach[e].length; });
    std::vector<PathLength> both(network.vertex_count);
    for (VertexId v = 0; v < network.vertex_count; ++v)
        both[v].length = lengths[v];
    if (network.one_measure) return both;
    const auto passages = shortest(network, from, [&](EdgeId e) { return network.reach[e].passage; });
    for (VertexId v = 0; v < network.vertex_count; ++v)
        both[v].passage = passages[v];
    return both;
}

}  // namespace spadework::graph
