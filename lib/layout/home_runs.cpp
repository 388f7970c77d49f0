#include <algorithm>

#include "graph/shared_cost_solver.hpp"
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

/// What the cables cost beyond their figures because none is shorter than the shortest way.
Money beyond_figures(const Scenario& scenario, const ShortestWays& from_hub) {
    Money sum;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const Length least = *from_hub.length[static_cast<std::size_t>(scenario.buildings[b].place)];
        sum += beyond_service_figures(scenario, static_cast<BuildingIndex>(b), least);
    }
    return sum;
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
    task.constant = figures.constant + beyond_figures(scenario, from_hub);
    task.route = [&](const Network& on, const graph::SolveLimits& run) {
        const auto solution = solve_by_measure(problem_on(on, scenario, figures), run);
        Routing routing{std::nullopt, solution.bound, solution.interrupted, {solution.proofs, {}, {}}};
        if (solution.plan) routing.routed = routed_by(solution.plan->paths, on, scenario);
        return routing;
    };
    task.fallbacks = [&](const RoutedLayout&) {
        return std::vector<RoutedLayout>{by_shortest_ways(network, from_hub, scenario)};
    };
    task.why_no_route = "not every building has a way to the hub";
    return optimise(scenario, task, limits);
}

}  // namespace spadework
