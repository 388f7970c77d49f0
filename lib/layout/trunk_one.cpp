#include <algorithm>

#include "graph/shared_cost_solver.hpp"
#include "layout/designs.hpp"
#include "layout/finish.hpp"
#include "layout/solver_limits.hpp"
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

Design one_enclosure(const Scenario& scenario, const TrunkProblem& trunk, const std::vector<PlaceIndex>& places,
                     const graph::SharedCostSolution& solution, const DesignLimits& limits) {
    Design design;
    design.layout = LayoutKind::trunk_one;
    design.interrupted = solution.interrupted;
    design.direct_bound =
        std::max(Money(), constant_cost(trunk, trunk.network.scale) + trunk.network.scale.money(solution.bound));
    const PlaceIndex enclosure = places[static_cast<std::size_t>(solution.plan->root)];
    const auto reroute = [&](const Network& other) -> std::optional<RoutedLayout> {
        const auto again = graph::solve(rooted_at({enclosure}, other, scenario, trunk), solver_limits(limits));
        if (!again.plan) return std::nullopt;
        return routed_by(*again.plan, enclosure, other, scenario);
    };
    finish(scenario, routed_by(*solution.plan, enclosure, trunk.network, scenario), reroute,
           {trunk_by_shortest_ways(scenario, trunk, LayoutKind::trunk_one, {enclosure})}, design);
    return design;
}

}  // namespace

Design design_trunk_one(const Scenario& scenario, const DesignLimits& limits) {
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty()) return infeasible(LayoutKind::trunk_one, trunk.impossible);
    if (!trunk_holds_all(trunk))
        return infeasible(LayoutKind::trunk_one, "one trunk cannot hold every building's strands");
    const auto problem = rooted_at(trunk.places, trunk.network, scenario, trunk);
    Design design = one_enclosure(scenario, trunk, trunk.places, graph::solve(problem, solver_limits(limits)), limits);
    if (!design.plan) {
        std::vector<RoutedLayout> fallbacks;
        for (const PlaceIndex place : places_by_longest_link(scenario, trunk)) {
            fallbacks.push_back(trunk_by_shortest_ways(scenario, trunk, LayoutKind::trunk_one, {place}));
            if (fallbacks.size() == 8) break;
        }
        const auto no_other = [](const Network&) -> std::optional<RoutedLayout> { return std::nullopt; };
        finish(scenario, fallbacks.front(), no_other, fallbacks, design);
    }
    return design;
}

std::vector<PlaceDesign> design_at_every_place(const Scenario& scenario, const DesignLimits& limits) {
    std::vector<PlaceDesign> designs;
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty() || !trunk_holds_all(trunk)) return designs;
    const auto everywhere = rooted_at(trunk.places, trunk.network, scenario, trunk);
    const auto best = graph::solve(everywhere, solver_limits(limits));
    for (std::size_t p = 0; p < trunk.places.size(); ++p) {
        const PlaceIndex place = trunk.places[p];
        auto here = static_cast<int>(p) == best.plan->root
                        ? best
                        : graph::sketch(rooted_at({place}, trunk.network, scenario, trunk), solver_limits(limits));
        if (static_cast<int>(p) == best.plan->root) here.plan->root = 0;
        here.bound = best.root_bounds[p];
        designs.push_back({place, one_enclosure(scenario, trunk, {place}, here, limits)});
        if (limits.progress != nullptr && limits.progress->should_stop()) break;
    }
    return designs;
}

}  // namespace spadework
