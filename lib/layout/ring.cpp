#include "graph/ring_solver.hpp"
#include "layout/designs.hpp"
#include "layout/hop_reach.hpp"
#include "layout/lit_chains.hpp"
#include "layout/optimise.hpp"
#include "layout/ring_rule.hpp"
#include "layout/service_figures.hpp"

namespace spadework {

namespace {

/// What the ring problem needs beside the network.
struct RingFigures {
    CableFigures hop;
    Money a_ring;    ///< Least cost of what closes a ring: the ends of one more cable, and its links.
    Money constant;  ///< Least cost beside routes and what closes rings.
    std::optional<Length> longest_hop;
    std::string impossible;
};

RingFigures no_rings(const std::string& reason) {
    return {{}, Money(), Money(), std::nullopt, reason};
}

/// Hub switches for both ends of so many rings.
LeastCost hub_for(const Scenario& scenario, int rings) {
    return hub_for_ends(scenario, 2 * rings);
}

/// Gear with ports for both sides of a ring, and the links that come along the ring.
LeastCost station_cost(const Scenario& scenario, const Building& building) {
    const int links = links_per_hop(scenario);
    const BitRate rate = fastest_rate(scenario);
    const auto gear = cheapest_building_gear(scenario, building, {2 * links, rate});
    if (!gear) {
        return {Money(),
                "building " + building.id +
                    ": no gear in the catalogue has the power, the rate and the ports for both sides of a ring"};
    }
    LeastCost cost = least_link_cost(scenario, building, rate, Length());
    const auto& product = scenario.catalogue.building_gear[static_cast<std::size_t>(gear->product)];
    cost.cost = cost.cost * links + price_installed(product, gear->count, scenario.labour);
    return cost;
}

RingFigures ring_figures(const Scenario& scenario, const CostScale& scale) {
    RingFigures figures;
    const int links = links_per_hop(scenario);
    const auto hop = hop_figures(scenario, scale);
    if (!hop) return no_rings("the catalogue has no cable");
    figures.hop = *hop;
    const Money ends = hop->ends - hop->rounding;
    for (const Building& building : scenario.buildings) {
        const LeastCost station = station_cost(scenario, building);
        if (!station.impossible.empty()) return no_rings(station.impossible);
        figures.constant += ends + station.cost;
    }
    const LeastCost link = least_link_cost(scenario, scenario.buildings.front(), fastest_rate(scenario), Length());
    figures.a_ring = ends + link.cost * links;
    // Rounding can come to more than the rest: then it is taken off once for each building, as there are no more rings.
    if (figures.a_ring < Money()) {
        figures.constant += figures.a_ring * static_cast<std::int64_t>(scenario.buildings.size());
        figures.a_ring = Money();
    }
    const LeastCost hub = hub_for(scenario, least_chain_count(scenario));
    figures.impossible = hub.impossible;
    figures.longest_hop = longest_hop(scenario);
    figures.constant += hub.cost + scenario.labour.mobilisation;
    return figures;
}

graph::RingProblem problem_on(const Network& network, const Scenario& scenario, const RingFigures& figures) {
    graph::RingProblem problem;
    problem.vertex_count = network.vertex_count;
    problem.edges = network.edges;
    for (const NetworkEdge& origin : network.origin)
        problem.cut_of.push_back(origin.segment);
    problem.source = scenario.hub.place;
    for (const Building& building : scenario.buildings)
        problem.stops.push_back(building.place);
    problem.weight = figures.hop.weight;
    problem.multiplicity = figures.hop.multiplicity;
    problem.ring_cost = network.scale.units(figures.a_ring);
    problem.longest_ring = longest_chain(scenario);
    if (figures.longest_hop) {
        problem.span_of = hop_spans(scenario, network);
        problem.longest_hop = figures.longest_hop->millimetres();
    }
    return problem;
}

/// Hops too long for any optic in it say what is missing.
const std::optional<graph::RingPlan>& plan_or_nearest(const graph::RingSolution& solution) {
    return solution.plan ? solution.plan : solution.with_long_hops;
}

RoutedLayout routed_by(const graph::RingPlan& plan, const Network& network, const Scenario& scenario) {
    RoutedLayout routed;
    routed.kind = LayoutKind::ring;
    for (const graph::RingPlan::Ring& ring : plan.rings) {
        const PlaceIndex last = add_chain(ring.hops, network, scenario, routed);
        routed.closings.push_back(route_along(network, ring.back, scenario.hub.place, last));
    }
    sort_by_building(routed);
    return routed;
}

/// A ring for each building, each by the shortest two ways: short hops for optics that reach no further.
std::vector<RoutedLayout> one_building_a_ring(const Network& network, const Scenario& scenario,
                                              const RingFigures& figures) {
    graph::RingProblem problem = problem_on(network, scenario, figures);
    for (graph::SharedCostEdge& edge : problem.edges) {
        edge.opening = 0;
        edge.passage = 0;
    }
    problem.weight = 1;
    problem.ring_cost = 0;
    problem.longest_ring = 1;
    graph::SolveLimits plan_only;
    plan_only.target_gap = 1.0;
    const auto solution = graph::solve(problem, plan_only);
    const auto& plan = plan_or_nearest(solution);
    if (!plan) return {};
    return {routed_by(*plan, network, scenario)};
}

bool rings_cost_the_hub(const Scenario& scenario) {
    const int most = static_cast<int>(scenario.buildings.size());
    return hub_for(scenario, most).cost > hub_for(scenario, least_chain_count(scenario)).cost;
}

}  // namespace

Design design_ring(const Scenario& scenario, const DesignLimits& limits) {
    const Network network = network_of(scenario);
    const RingFigures figures = ring_figures(scenario, network.scale);
    if (!figures.impossible.empty()) return impossible(LayoutKind::ring, figures.impossible);
    LayoutTask task;
    task.kind = LayoutKind::ring;
    task.network = &network;
    task.constant = figures.constant;
    bool fewest = false;  // Whether the plan at hand has as few rings as there can be.
    task.route = [&](const Network& on, const graph::SolveLimits& run) {
        const graph::RingProblem problem = problem_on(on, scenario, figures);
        const auto solution = graph::solve(problem, run);
        Routing routing{std::nullopt, solution.bound, solution.interrupted, {}};
        routing.proof.chains = ProvedChains{graph::open_rings(problem), solution.certificate};
        const auto& plan = plan_or_nearest(solution);
        if (!plan) return routing;
        fewest = static_cast<int>(plan->rings.size()) == least_chain_count(scenario);
        // Where ways are withheld, a stretch may be a bridge of what is left though it is none of the map.
        RoutedLayout routed = routed_by(*plan, on, scenario);
        if (rings_keep_apart(scenario, routed)) routing.routed = std::move(routed);
        return routing;
    };
    task.fallbacks = [&](const RoutedLayout&) { return one_building_a_ring(network, scenario, figures); };
    if (rings_cost_the_hub(scenario)) {
        task.other_routes = [&](const graph::SolveLimits& run) {
            if (fewest) return std::vector<RoutedLayout>();
            graph::RingProblem few_rings = problem_on(network, scenario, figures);
            few_rings.ring_cost += network.scale.units(dearest_ends(scenario, 2));
            graph::SolveLimits plan_only = run;
            plan_only.target_gap = 1.0;
            const auto solution = graph::solve(few_rings, plan_only);
            std::vector<RoutedLayout> routes;
            if (solution.plan) routes.push_back(routed_by(*solution.plan, network, scenario));
            return routes;
        };
    }
    task.why_no_route = "not every building has a way to the hub";
    return optimise(scenario, task, limits);
}

}  // namespace spadework
