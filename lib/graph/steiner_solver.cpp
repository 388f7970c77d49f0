#include "graph/steiner_solver.hpp"

#include <algorithm>

#include "graph/connected_parts.hpp"
#include "graph/cost_lattice.hpp"
#include "graph/reduction.hpp"
#include "graph/solve_run.hpp"
#include "graph/steiner_certificate.hpp"
#include "graph/steiner_search.hpp"
#include "graph/well_formed.hpp"

namespace spadework::graph::steiner {

namespace {

constexpr double kCertificateShare = 0.2;  ///< Of the time, at most.

constexpr std::size_t kSmallProblem = 50'000;  ///< Edges times demands.

bool paths_are_free(const SharedCostProblem& problem) {
    const auto any_length =
        std::any_of(problem.edges.begin(), problem.edges.end(), [](const auto& e) { return e.length > 0; });
    const auto any_passage =
        std::any_of(problem.edges.begin(), problem.edges.end(), [](const auto& e) { return e.passage > 0; });
    return std::all_of(problem.demands.begin(), problem.demands.end(), [&](const Demand& d) {
        return (!any_length || d.weight == 0) && (!any_passage || d.multiplicity == 0);
    });
}

std::vector<InputEdge> edges_in_steps(const SharedCostProblem& problem, Cost step) {
    std::vector<InputEdge> edges;
    for (const SharedCostEdge& edge : problem.edges)
        edges.push_back({edge.tail, edge.head, edge.opening / step});
    return edges;
}

/// The root and every vertex with a demand, each once.
std::vector<VertexId> terminals_of(const SharedCostProblem& problem) {
    std::vector<VertexId> terminals{problem.roots.front().at};
    for (const Demand& demand : problem.demands)
        terminals.push_back(demand.at);
    std::sort(terminals.begin(), terminals.end());
    terminals.erase(std::unique(terminals.begin(), terminals.end()), terminals.end());
    return terminals;
}

/// One path to each demand along the edges of a tree.
SharedCostPlan plan_along(const SharedCostProblem& problem, const std::vector<EdgeId>& tree) {
    std::vector<std::vector<EdgeId>> at(problem.vertex_count);
    for (const EdgeId e : tree) {
        at[problem.edges[e].tail].push_back(e);
        at[problem.edges[e].head].push_back(e);
    }
    const VertexId root = problem.roots.front().at;
    std::vector<EdgeId> up(problem.vertex_count, -1);
    std::vector<VertexId> rest{root};
    const auto across = [&](EdgeId e, VertexId v) {
        return problem.edges[e].tail == v ? problem.edges[e].head : problem.edges[e].tail;
    };
    while (!rest.empty()) {
        const VertexId here = rest.back();
        rest.pop_back();
        for (const EdgeId e : at[here]) {
            if (e == up[here]) continue;
            up[across(e, here)] = e;
            rest.push_back(across(e, here));
        }
    }
    SharedCostPlan plan;
    plan.root = 0;
    for (const Demand& demand : problem.demands) {
        std::vector<EdgeId>& path = plan.paths.emplace_back();
        for (VertexId v = demand.at; v != root; v = across(path.back(), v))
            path.push_back(up[v]);
        std::reverse(path.begin(), path.end());
    }
    plan.value = cost_of(problem, plan).value_or(kLargestCost);
    return plan;
}

/// Certificates of small problems are to prove all that prices can: the general solver's replaces one that proves less.
/// Returns what the certificate proves then.
Cost strengthened(const SharedCostProblem& problem, const SolveLimits& limits, const StopSign& stop, Cost proved,
                  SharedCostCertificate& certificate) {
    if (problem.edges.size() * problem.demands.size() > kSmallProblem || stop.here()) return proved;
    const auto small = reduced(problem);
    PartProgress quiet(limits.progress);
    SolveLimits own = limits;
    own.seconds = stop.seconds_left();
    own.progress = &quiet;
    SolveRun run(problem, *small, own);
    run.run();
    SharedCostCertificate found = run.certificate();
    const auto bounds = bound_proved(problem, found);
    if (!bounds || bounds->front() <= proved) return proved;
    certificate = std::move(found);
    return bounds->front();
}

}  // namespace

bool is_steiner_problem(const SharedCostProblem& problem) {
    if (!well_formed(problem) || problem.roots.size() != 1 || !paths_are_free(problem)) return false;
    WideCost sum = problem.roots.front().cost;
    for (const SharedCostEdge& edge : problem.edges)
        sum += edge.opening;
    if (sum > kLargestSum) return false;
    const std::vector<std::int32_t> part = connected_parts(problem);
    return std::all_of(problem.demands.begin(), problem.demands.end(),
                       [&](const Demand& d) { return part[d.at] == part[problem.roots.front().at]; });
}

SharedCostSolution solve_steiner(const SharedCostProblem& problem, const SolveLimits& limits) {
    const StopSign stop(limits.seconds, limits.progress);
    const Cost step = std::max<Cost>(lattice_step(problem), 1);
    const Cost root_cost = problem.roots.front().cost;
    WorkerTeam team(limits.threads);
    Surroundings around{&team, &stop, nullptr};
    if (limits.progress != nullptr) {
        around.improved = [&](Cost value, Cost bound) {
            limits.progress->improved(value * step + root_cost, bound * step + root_cost);
        };
    }
    Effort effort;
    effort.target_gap = limits.target_gap;
    Search search(problem.vertex_count, edges_in_steps(problem, step), terminals_of(problem), effort, around);
    SharedCostSolution solution;
    ProvedPrices proved = prices_by_ascent(problem, stop, kCertificateShare);
    solution.certificate = std::move(proved.certificate);
    search.raise_bound((proved.bound + step - 1) / step);
    search.run();
    Cost bound = search.bound() * step + root_cost;
    if (bound > root_cost + proved.bound)
        bound = std::max(bound, strengthened(problem, limits, stop, root_cost + proved.bound, solution.certificate));
    solution.plan = plan_along(problem, search.best().edges);
    solution.bound = bound;
    solution.root_bounds = {solution.bound};
    solution.roots_left = {0};
    solution.optimal = solution.plan->value == solution.bound;
    solution.interrupted = search.interrupted();
    return solution;
}

}  // namespace spadework::graph::steiner
