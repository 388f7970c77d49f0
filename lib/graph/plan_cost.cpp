#include "graph/saturating.hpp"
#include "graph/shared_cost_solver.hpp"
#include "graph/well_formed.hpp"

namespace spadework::graph {

namespace {

/// What the demand pays along the path, and marks its edges opened; nothing when the path does not lead from root to
/// demand or passes a vertex twice.
std::optional<WideCost> walk(const SharedCostProblem& problem, const Demand& demand, VertexId root,
                             const std::vector<EdgeId>& path, std::vector<std::int32_t>& last_visit,
                             std::int32_t visit) {
    WideCost charge = 0;
    VertexId here = root;
    last_visit[here] = visit;
    for (const EdgeId id : path) {
        if (id < 0 || static_cast<std::size_t>(id) >= problem.edges.size()) return std::nullopt;
        const SharedCostEdge& edge = problem.edges[id];
        if (edge.tail != here && edge.head != here) return std::nullopt;
        here = edge.tail == here ? edge.head : edge.tail;
        if (last_visit[here] == visit) return std::nullopt;
        last_visit[here] = visit;
        charge += path_charge(demand, edge);
    }
    if (here != demand.at) return std::nullopt;
    return charge;
}

}  // namespace

std::optional<Cost> cost_of(const SharedCostProblem& problem, const SharedCostPlan& plan) {
    if (!well_formed(problem) || plan.paths.size() != problem.demands.size()) return std::nullopt;
    if (plan.root < 0 || static_cast<std::size_t>(plan.root) >= problem.roots.size()) return std::nullopt;
    const RootOption& root = problem.roots[plan.root];
    WideCost total = root.cost;
    std::vector<std::int32_t> last_visit(problem.vertex_count, -1);
    std::vector<char> opened(problem.edges.size(), 0);
    for (std::size_t d = 0; d < plan.paths.size(); ++d) {
        const auto charge =
            walk(problem, problem.demands[d], root.at, plan.paths[d], last_visit, static_cast<std::int32_t>(d));
        if (!charge) return std::nullopt;
        total += *charge;
        for (const EdgeId id : plan.paths[d]) {
            if (!opened[id]) total += problem.edges[id].opening;
            opened[id] = 1;
        }
    }
    return saturated(total);
}

}  // namespace spadework::graph
