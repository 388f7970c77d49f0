#include "graph/two_level_bound.hpp"

#include <algorithm>

#include "graph/label_heap.hpp"
#include "graph/two_level_figures.hpp"

namespace spadework::graph::two_level {

namespace {

/// What each vertex costs to reach from the given one when every edge costs the charge alone.
std::vector<Cost> distances(const pair_routes::Network& network, VertexId from, pair_routes::Charge charge) {
    std::vector<Cost> label(network.vertex_count, kLargestCost);
    LabelHeap<Cost> queue(network.vertex_count);
    label[from] = 0;
    queue.push_or_lower(from, 0);
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (const Step& step : network.steps.from(here)) {
            const Cost along = add(label[here], charge.on(network.edges[step.edge]));
            if (along >= label[step.to]) continue;
            label[step.to] = along;
            queue.push_or_lower(step.to, along);
        }
    }
    return label;
}

}  // namespace

Cost lower_bound(const TwoLevelProblem& problem, Cost, const pair_routes::StopRule&) {
    // Each demand pays at least its own way from the nearest site, or its direct figures.
    const pair_routes::Network network(problem.vertex_count, problem.edges);
    Cost total = 0;
    for (const TwoLevelDemand& demand : problem.demands) {
        const std::vector<Cost> served = distances(network, demand.at, service_charge(demand));
        Cost least = kLargestCost;
        for (const Site& site : problem.sites)
            least = std::min(least, served[site.at]);
        if (demand.direct) {
            const std::vector<Cost> direct = distances(network, demand.at, direct_charge(*demand.direct));
            if (direct[problem.source] < kLargestCost) {
                least = std::min(least, direct[problem.source] + demand.direct->fixed);
            }
        }
        if (least == kLargestCost) return kLargestCost;
        total += least;
    }
    return total;
}

}  // namespace spadework::graph::two_level
