#include <algorithm>
#include <numeric>

#include "graph/shared_cost_solver.hpp"
#include "layout/bought_bound.hpp"
#include "layout/bought_rerouting.hpp"
#include "layout/designs.hpp"
#include "layout/optimise.hpp"
#include "layout/service_figures.hpp"
#include "routing/distances.hpp"
#include "routing/handhole_coils.hpp"
#include "routing/one_measure.hpp"

namespace spadework {

namespace {

graph::SharedCostProblem problem_on(const Network& network, const Scenario& scenario, const ServiceFigures& figures) {
    graph::SharedCostProblem problem{network.vertex_count, network.edges, {}, {{scenario.hub.place, 0}}};
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        problem.demands.push_back(
            {scenario.buildings[b].place, figures.cables[b].weight, figures.cables[b].multiplicity});
    }
    return problem;
}

RoutedLayout routed_by(const std::vector<std::vector<graph::EdgeId>>& paths, const Network& network,
                       const Scenario& scenario) {
    RoutedLayout routed;
    routed.kind = LayoutKind::home_runs;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const PlaceIndex place = scenario.buildings[b].place;
        routed.buildings.push_back(
            {static_cast<BuildingIndex>(b), -1, route_along(network, paths[b], scenario.hub.place, place)});
    }
    return routed;
}

RoutedLayout by_shortest_ways(const Network& network, const ShortestWays& ways, const Scenario& scenario) {
    std::vector<std::vector<graph::EdgeId>> paths;
    for (const Building& building : scenario.buildings)
        paths.push_back(way_to(ways, network, building.place));
    return routed_by(paths, network, scenario);
}

/// What each cable costs beyond its figures because none is shorter than the shortest way.
std::vector<Money> beyond_figures(const Scenario& scenario, const ShortestWays& from_hub) {
    std::vector<Money> beyond;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const Length least = *from_hub.length[static_cast<std::size_t>(scenario.buildings[b].place)];
        beyond.push_back(beyond_service_figures(scenario, static_cast<BuildingIndex>(b), least));
    }
    return beyond;
}

/// The cables as they are bought, where bounds count so much beyond the figures of each.
BoughtCables bought_cables(const Scenario& scenario, const CostScale& scale, const ServiceFigures& figures,
                           const std::vector<Money>& beyond) {
    BoughtCables cables{scale, bought_demands(scenario, figures), {{}}};
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b)
        cables.roots.front().counted.push_back(figures.cables[b].of_product + beyond[b]);
    return cables;
}

/// A split takes about as long as a solve: it has to close a gap that shows, and on large sites one that shows much.
graph::SolveLimits with_splits(graph::SolveLimits run, const Scenario& scenario, const Network& network) {
    constexpr std::size_t small = 200'000;  // demands times edges
    const bool is_small = scenario.buildings.size() * network.edges.size() <= small;
    run.most_splits = is_small ? 40 : 6;
    run.gap_unsplit = is_small ? 5e-5 : 5e-4;
    return run;
}

}  // namespace

Design design_home_runs(const Scenario& scenario, const DesignLimits& limits) {
    const Network bare = network_of(scenario);
    const ShortestWays from_hub = shortest_ways(bare, scenario.hub.place);
    const Network network = with_handhole_coils(scenario, bare);
    const ServiceFigures figures = service_figures(scenario, network.scale, from_hub);
    if (!figures.impossible.empty()) return impossible(LayoutKind::home_runs, figures.impossible);

    LayoutTask task;
    task.kind = LayoutKind::home_runs;
    task.network = &network;
    const std::vector<Money> beyond = beyond_figures(scenario, from_hub);
    const BoughtCables cables = bought_cables(scenario, network.scale, figures, beyond);
    task.constant = std::accumulate(beyond.begin(), beyond.end(), figures.constant);
    task.route = [&](const Network& on, const graph::SolveLimits& run) {
        const graph::SharedCostProblem problem = problem_on(on, scenario, figures);
        const graph::pair_routes::StopRule time(run.seconds, run.progress);
        MeasuredSolution solution = solve_by_measure(problem, run);
        if (run.target_gap < 1) raise_by_bought_cables(problem, cables, time, solution);
        Routing routing{std::nullopt, solution.bound, solution.interrupted, {solution.proofs, {}, {}}};
        if (!solution.plan) return routing;
        routing.routed = routed_by(solution.plan->paths, on, scenario);
        if (run.target_gap < 1) {
            const graph::SharedCostPlan other = rerouted_as_bought(problem, cables, *solution.plan, time);
            if (other.paths != solution.plan->paths) routing.others.push_back(routed_by(other.paths, on, scenario));
        }
        return routing;
    };
    // Networks that price or withhold full ducts follow one after the other, and take no splits.
    task.first_route = [&](const graph::SolveLimits& run) {
        return task.route(network, with_splits(run, scenario, network));
    };
    task.fallbacks = [&](const RoutedLayout&) {
        return std::vector<RoutedLayout>{by_shortest_ways(network, from_hub, scenario)};
    };
    task.why_no_route = "not every building has a way to the hub";
    return optimise(scenario, task, limits);
}

}  // namespace spadework
