#include <algorithm>

#include "graph/shared_cost_solver.hpp"
#include "layout/designs.hpp"
#include "layout/finish.hpp"
#include "layout/service_figures.hpp"
#include "layout/solver_limits.hpp"
#include "routing/distances.hpp"

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

}  // namespace

Design design_home_runs(const Scenario& scenario, const DesignLimits& limits) {
    const Network network = network_of(scenario);
    const ShortestWays from_hub = shortest_ways(network, scenario.hub.place);
    const ServiceFigures figures = service_figures(scenario, network.scale, from_hub);
    if (!figures.impossible.empty()) return infeasible(LayoutKind::home_runs, figures.impossible);

    const auto solution = graph::solve(problem_on(network, scenario, figures), solver_limits(limits));
    Design design;
    design.layout = LayoutKind::home_runs;
    design.interrupted = solution.interrupted;
    design.direct_bound = std::max(Money(), figures.constant + network.scale.money(solution.bound));
    const auto reroute = [&](const Network& other) -> std::optional<RoutedLayout> {
        const auto again = graph::solve(problem_on(other, scenario, figures), solver_limits(limits));
        if (!again.plan) return std::nullopt;
        return routed_by(again.plan->paths, other, scenario);
    };
    finish(scenario, routed_by(solution.plan->paths, network, scenario), reroute,
           {by_shortest_ways(network, from_hub, scenario)}, design);
    return design;
}

}  // namespace spadework
