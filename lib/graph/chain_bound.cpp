#include "graph/chain_bound.hpp"

#include <algorithm>

#include "graph/chain_figures.hpp"
#include "graph/label_heap.hpp"

namespace spadework::graph::chains {

namespace {

/// What all chains together pay and save at least, whatever their number.
Cost least_for_chains(const ChainProblem& problem) {
    const auto stops = static_cast<Cost>(problem.stops.size());
    const Cost fewest = (stops + problem.longest_chain - 1) / problem.longest_chain;
    const Cost a_chain = problem.chain_cost - problem.end_saving;
    return a_chain >= 0 ? fewest * a_chain : stops * a_chain;
}

/// What the dearest stop costs to reach when every edge is opened for it alone.
Cost farthest_stop(const ChainProblem& problem) {
    const pair_routes::Network network(problem.vertex_count, problem.edges);
    std::vector<Cost> label(problem.vertex_count, kLargestCost);
    LabelHeap<Cost> queue(problem.vertex_count);
    label[problem.source] = 0;
    queue.push_or_lower(problem.source, 0);
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (const Step& step : network.steps.from(here)) {
            const SharedCostEdge& edge = network.edges[step.edge];
            const Cost along = add(label[here], edge.opening + hop_charge(problem).on(edge));
            if (along >= label[step.to]) continue;
            label[step.to] = along;
            queue.push_or_lower(step.to, along);
        }
    }
    Cost farthest = 0;
    for (const VertexId stop : problem.stops)
        farthest = std::max(farthest, label[stop]);
    return farthest;
}

}  // namespace

Cost lower_bound(const ChainProblem& problem, Cost, const SolveLimits&) {
    const Cost farthest = farthest_stop(problem);
    return farthest == kLargestCost ? kLargestCost : farthest + least_for_chains(problem);
}

}  // namespace spadework::graph::chains
