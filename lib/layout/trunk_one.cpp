#include <algorithm>

#include "graph/shared_cost_solver.hpp"
#include "layout/designs.hpp"
#include "layout/optimise.hpp"
#include "layout/time_left.hpp"
#include "layout/trunk_problem.hpp"

namespace spadework {

namespace {

/// The enclosure is the root; every building hangs from it, and so does the hub, at the trunk's price.
graph::SharedCostProblem rooted_at(const std::vector<PlaceIndex>& places, const Network& network,
                                   const Scenario& scenario, const TrunkProblem& trunk) {
    graph::SharedCostProblem problem{network.vertex_count, network.edges, {}, {}};
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const CableFigures& cable = trunk.service.cables[b];
        problem.demands.push_back({scenario.buildings[b].place, cable.weight, cable.multiplicity});
    }
    const graph::FeederSize& size = trunk.sizes.back();
    problem.demands.push_back({scenario.hub.place, size.weight, size.multiplicity});
    for (const PlaceIndex place : places) {
        const Money extra = scenario.places[static_cast<std::size_t>(place)].enclosure_extra;
        problem.roots.push_back({place, network.scale.units(extra)});
    }
    return problem;
}

RoutedLayout routed_by(const graph::SharedCostPlan& plan, PlaceIndex enclosure, const Network& network,
                       const Scenario& scenario) {
    RoutedLayout routed;
    routed.kind = LayoutKind::trunk_one;
    std::vector<graph::EdgeId> trunk = plan.paths.back();
    std::reverse(trunk.begin(), trunk.end());
    routed.enclosures.push_back({enclosure, route_along(network, trunk, scenario.hub.place, enclosure)});
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        routed.buildings.push_back({static_cast<BuildingIndex>(b), 0,
                                    route_along(network, plan.paths[b], enclosure, scenario.buildings[b].place)});
    }
    return routed;
}

/// Cost of every plan beside its routes and its place's extra.
Money constant_cost(const TrunkProblem& trunk, const CostScale& scale) {
    return trunk.service.constant + trunk.trunk_end_work + scale.money(trunk.sizes.back().fixed);
}

bool trunk_holds_all(const TrunkProblem& trunk) {
    return !trunk.sizes.empty() && trunk.sizes.back().units >= trunk.strands_in_use;
}

/// Places by the length of the longest link through them, shortest first: where to look when links are too long.
std::vector<PlaceIndex> places_by_longest_link(const Scenario& scenario, const TrunkProblem& trunk) {
    std::vector<std::pair<Length, PlaceIndex>> order;
    for (const PlaceIndex place : trunk.places) {
        const ShortestWays ways = shortest_ways(trunk.network, place);
        Length longest;
        for (const Building& building : scenario.buildings) {
            longest = std::max(longest, *ways.length[static_cast<std::size_t>(building.place)]);
        }
        order.emplace_back(*trunk.from_hub.length[static_cast<std::size_t>(place)] + longest, place);
    }
    std::sort(order.begin(), order.end());
    std::vector<PlaceIndex> places;
    for (const auto& [length, place] : order)
        places.push_back(place);
    return places;
}

/// The layout with its enclosure at one of the given places, wherever it comes out cheapest.
LayoutTask task_at(const std::vector<PlaceIndex>& places, const Scenario& scenario, const TrunkProblem& trunk) {
    LayoutTask task;
    task.kind = LayoutKind::trunk_one;
    task.network = &trunk.network;
    task.constant = constant_cost(trunk, trunk.network.scale);
    task.route = [&scenario, &trunk, places](const Network& on, const graph::SolveLimits& run) {
        const auto solution = graph::solve(rooted_at(places, on, scenario, trunk), run);
        Routing routing{std::nullopt, solution.bound, solution.interrupted};
        if (!solution.plan) return routing;
        const PlaceIndex enclosure = places[static_cast<std::size_t>(solution.plan->root)];
        routing.routed = routed_by(*solution.plan, enclosure, on, scenario);
        return routing;
    };
    task.why_no_route = "not every building has a way to the hub";
    return task;
}

/// Shortest ways through the place first chosen, then through the places with the shortest longest links.
std::vector<RoutedLayout> shortest_through_places(const Scenario& scenario, const TrunkProblem& trunk,
                                                  PlaceIndex first) {
    constexpr std::size_t most_places = 8;
    std::vector<RoutedLayout> fallbacks = {trunk_by_shortest_ways(scenario, trunk, LayoutKind::trunk_one, {first})};
    for (const PlaceIndex place : places_by_longest_link(scenario, trunk)) {
        if (fallbacks.size() > most_places) break;
        fallbacks.push_back(trunk_by_shortest_ways(scenario, trunk, LayoutKind::trunk_one, {place}));
    }
    return fallbacks;
}

}  // namespace

Design design_trunk_one(const Scenario& scenario, const DesignLimits& limits) {
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty()) return infeasible(LayoutKind::trunk_one, trunk.impossible);
    if (!trunk_holds_all(trunk))
        return infeasible(LayoutKind::trunk_one, "one trunk cannot hold every building's strands");
    LayoutTask task = task_at(trunk.places, scenario, trunk);
    task.fallbacks = [&](const RoutedLayout& routed) {
        return shortest_through_places(scenario, trunk, routed.enclosures.front().place);
    };
    return optimise(scenario, task, limits);
}

std::vector<PlaceDesign> design_at_every_place(const Scenario& scenario, const DesignLimits& limits) {
    std::vector<PlaceDesign> designs;
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty() || !trunk_holds_all(trunk)) return designs;
    const TimeLeft time(limits);
    const auto everywhere = graph::solve(rooted_at(trunk.places, trunk.network, scenario, trunk), time.run(0.5));
    for (std::size_t p = 0; p < trunk.places.size() && !time.asked_to_stop(); ++p) {
        const PlaceIndex place = trunk.places[p];
        LayoutTask task = task_at({place}, scenario, trunk);
        task.quick = true;
        task.route = [&](const Network& on, const graph::SolveLimits& run) {
            const bool solved = static_cast<int>(p) == everywhere.plan->root && &on == &trunk.network;
            const auto here = solved ? everywhere : graph::sketch(rooted_at({place}, on, scenario, trunk), run);
            return Routing{routed_by(*here.plan, place, on, scenario), 0, false};
        };
        Design design = optimise(scenario, task, limits);
        const Money bound = task.constant + trunk.network.scale.money(everywhere.root_bounds[p]);
        design.direct_bound = std::max(design.direct_bound, bound);
        designs.push_back({place, std::move(design)});
    }
    return designs;
}

}  // namespace spadework
