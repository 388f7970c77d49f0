#include <algorithm>

#include "graph/two_level_solver.hpp"
#include "layout/designs.hpp"
#include "layout/finish.hpp"
#include "layout/solver_limits.hpp"
#include "layout/trunk_problem.hpp"

namespace spadework {

namespace {

/// A building on a home run saves the work on its strands at both ends of the trunk.
graph::DirectService home_run_of(const Scenario& scenario, std::size_t building, const TrunkProblem& trunk) {
    const CableFigures& cable = trunk.service.cables[building];
    const int strands = strands_in_use(scenario.buildings[building], scenario.rules);
    const graph::Cost saved = trunk.network.scale.units(least_trunk_end_work(scenario, strands));
    return {cable.weight, cable.multiplicity, -saved};
}

graph::TwoLevelProblem problem_on(const Network& network, const Scenario& scenario, const TrunkProblem& trunk,
                                  LayoutKind kind) {
    graph::TwoLevelProblem problem;
    problem.vertex_count = network.vertex_count;
    problem.edges = network.edges;
    problem.source = scenario.hub.place;
    problem.sizes = trunk.sizes;
    problem.fewest_sites = kind == LayoutKind::mixed ? 0 : 1;
    problem.most_sites = scenario.rules.most_enclosures;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const CableFigures& cable = trunk.service.cables[b];
        graph::TwoLevelDemand demand{scenario.buildings[b].place, cable.weight, cable.multiplicity,
                                     strands_in_use(scenario.buildings[b], scenario.rules), std::nullopt};
        if (kind == LayoutKind::mixed) demand.direct = home_run_of(scenario, b, trunk);
        problem.demands.push_back(demand);
    }
    for (const PlaceIndex place : trunk.places) {
        const Money extra = scenario.places[static_cast<std::size_t>(place)].enclosure_extra;
        problem.sites.push_back({place, network.scale.units(extra)});
    }
    return problem;
}

RoutedLayout routed_by(const graph::TwoLevelPlan& plan, const Network& network, const Scenario& scenario,
                       const TrunkProblem& trunk, LayoutKind kind) {
    RoutedLayout routed;
    routed.kind = kind;
    for (const auto& open : plan.open) {
        const PlaceIndex place = trunk.places[static_cast<std::size_t>(open.site)];
        routed.enclosures.push_back({place, route_along(network, open.feeder, scenario.hub.place, place)});
    }
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const int served_by = plan.served_by[b];
        const PlaceIndex from =
            served_by < 0 ? scenario.hub.place : routed.enclosures[static_cast<std::size_t>(served_by)].place;
        routed.buildings.push_back({static_cast<BuildingIndex>(b), served_by,
                                    route_along(network, plan.paths[b], from, scenario.buildings[b].place)});
    }
    return routed;
}

std::vector<PlaceIndex> places_of(const RoutedLayout& routed) {
    std::vector<PlaceIndex> places;
    for (const RoutedEnclosure& enclosure : routed.enclosures)
        places.push_back(enclosure.place);
    return places;
}

/// One plan of the two-level problem made into a design.
Design design_of(const graph::TwoLevelPlan& plan, const Scenario& scenario, const TrunkProblem& trunk, LayoutKind kind,
                 const DesignLimits& limits) {
    Design design;
    design.layout = kind;
    const RoutedLayout routed = routed_by(plan, trunk.network, scenario, trunk, kind);
    const auto reroute = [&](const Network& other) -> std::optional<RoutedLayout> {
        const auto again = graph::solve(problem_on(other, scenario, trunk, kind), solver_limits(limits));
        if (!again.plan) return std::nullopt;
        return routed_by(*again.plan, other, scenario, trunk, kind);
    };
    std::vector<RoutedLayout> fallbacks;
    if (!routed.enclosures.empty()) {
        fallbacks.push_back(trunk_by_shortest_ways(scenario, trunk, kind, places_of(routed)));
    }
    finish(scenario, routed, reroute, fallbacks, design);
    return design;
}

Money direct_bound(const TrunkProblem& trunk, graph::Cost bound) {
    return std::max(Money(), trunk.service.constant + trunk.trunk_end_work + trunk.network.scale.money(bound));
}

Design design_with(LayoutKind kind, const Scenario& scenario, const DesignLimits& limits) {
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty()) return infeasible(kind, trunk.impossible);
    const auto solution = graph::solve(problem_on(trunk.network, scenario, trunk, kind), solver_limits(limits));
    if (!solution.plan) return infeasible(kind, "the trunks the rules allow cannot hold every building's strands");
    Design design = design_of(*solution.plan, scenario, trunk, kind, limits);
    design.interrupted = solution.interrupted;
    design.direct_bound = direct_bound(trunk, solution.bound);
    return design;
}

}  // namespace

Design design_trunk(const Scenario& scenario, const DesignLimits& limits) {
    return design_with(LayoutKind::trunk, scenario, limits);
}

Design design_mixed(const Scenario& scenario, const DesignLimits& limits) {
    return design_with(LayoutKind::mixed, scenario, limits);
}

std::vector<Design> design_by_enclosure_count(const Scenario& scenario, const DesignLimits& limits) {
    std::vector<Design> designs;
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty()) return designs;
    const auto problem = problem_on(trunk.network, scenario, trunk, LayoutKind::trunk);
    const auto solution = graph::solve(problem, solver_limits(limits));
    for (std::size_t count = 1; count < solution.best_by_count.size(); ++count) {
        const auto& plan = solution.best_by_count[count];
        Design design = plan ? design_of(*plan, scenario, trunk, LayoutKind::trunk, limits)
                             : infeasible(LayoutKind::trunk, "no plan found with so many enclosures");
        design.interrupted = solution.interrupted;
        design.direct_bound = direct_bound(trunk, solution.bound);
        designs.push_back(std::move(design));
    }
    return designs;
}

}  // namespace spadework
