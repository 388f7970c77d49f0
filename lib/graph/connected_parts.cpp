#include "graph/connected_parts.hpp"

#include "graph/adjacency.hpp"

namespace spadework::graph {

std::vector<std::int32_t> connected_parts(const SharedCostProblem& problem) {
    const Adjacency steps(problem.vertex_count, problem.edges);
    std::vector<std::int32_t> part(problem.vertex_count, -1);
    std::int32_t part_count = 0;
    std::vector<VertexId> frontier;
    for (VertexId start = 0; start < problem.vertex_count; ++start) {
        if (part[start] >= 0) continue;
        part[start] = part_count;
        frontier.assign(1, start);
        while (!frontier.empty()) {
            const VertexId here = frontier.back();
            frontier.pop_back();
            for (const Step& step : steps.from(here)) {
                if (part[step.to] >= 0) continue;
                part[step.to] = part_count;
                frontier.push_back(step.to);
            }
        }
        ++part_count;
    }
    return part;
}

}  // namespace spadework::graph
