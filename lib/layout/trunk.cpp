#include <algorithm>

#include "graph/two_level_single.hpp"
#include "graph/two_level_solver.hpp"
#include "layout/designs.hpp"
#include "layout/optimise.hpp"
#include "layout/reconcile.hpp"
#include "layout/time_left.hpp"
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
        const Length shortest = *trunk.from_hub.length[static_cast<std::size_t>(place)];
        problem.sites.push_back(
            {place, network.scale.units(extra), beyond_trunk_sizes(scenario, network.scale, trunk.sizes, shortest)});
    }
    return problem;
}

/// For each open site its number among those that serve someone, or -1 for one that serves nobody and is not built.
std::vector<int> numbers_of_sites_in_use(const graph::TwoLevelPlan& plan) {
    std::vector<int> numbers(plan.open.size(), -1);
    for (const std::int32_t site : plan.served_by) {
        if (site >= 0) numbers[static_cast<std::size_t>(site)] = 0;
    }
    int next = 0;
    for (int& number : numbers) {
        if (number == 0) number = next++;
    }
    return numbers;
}

RoutedLayout routed_by(const graph::TwoLevelPlan& plan, const Network& network, const Scenario& scenario,
                       const TrunkProblem& trunk, LayoutKind kind) {
    RoutedLayout routed;
    routed.kind = kind;
    const std::vector<int> numbers = numbers_of_sites_in_use(plan);
    for (std::size_t o = 0; o < plan.open.size(); ++o) {
        if (numbers[o] < 0) continue;
        const PlaceIndex place = trunk.places[static_cast<std::size_t>(plan.open[o].site)];
        routed.enclosures.push_back({place, route_along(network, plan.open[o].feeder, scenario.hub.place, place)});
    }
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const int site = plan.served_by[b];
        const int served_by = site < 0 ? -1 : numbers[static_cast<std::size_t>(site)];
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

/// Everything by shortest ways from the enclosures the routes have.
std::vector<RoutedLayout> shortest_from_enclosures(const Scenario& scenario, const TrunkProblem& trunk,
                                                   const RoutedLayout& routed) {
    if (routed.enclosures.empty()) return {};
    return {trunk_by_shortest_ways(scenario, trunk, routed.kind, places_of(routed))};
}

/// With one enclosure at most, the bound is that of a problem with a free root.
SolverProof proof_of(const graph::TwoLevelProblem& problem, const graph::TwoLevelSolution& solution) {
    SolverProof proof;
    const auto single = solution.single ? graph::two_level::single_root(problem) : std::nullopt;
    if (single) proof.routes.push_back({*single, *solution.single});
    if (solution.certificate) proof.trunks = ProvedTrunks{problem, *solution.certificate};
    return proof;
}

LayoutTask task_for(LayoutKind kind, const Scenario& scenario, const TrunkProblem& trunk) {
    LayoutTask task;
    task.kind = kind;
    task.network = &trunk.network;
    task.constant = trunk.service.constant + trunk.trunk_end_work;
    task.route = [&scenario, &trunk, kind](const Network& on, const graph::SolveLimits& run) {
        const auto solution = solve_by_measure(problem_on(on, scenario, trunk, kind), run);
        Routing routing{std::nullopt, solution.bound, solution.interrupted, proof_of(solution.proved, solution)};
        if (solution.plan) routing.routed = routed_by(*solution.plan, on, scenario, trunk, kind);
        for (const graph::TwoLevelPlan& plan : solution.near_best)
            routing.others.push_back(routed_by(plan, on, scenario, trunk, kind));
        return routing;
    };
    task.fallbacks = [&scenario, &trunk](const RoutedLayout& routed) {
        return shortest_from_enclosures(scenario, trunk, routed);
    };
    task.why_no_route = "the trunks the rules allow cannot hold every building's strands";
    return task;
}

Design design_with(LayoutKind kind, const Scenario& scenario, const DesignLimits& limits) {
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty()) return impossible(kind, trunk.impossible);
    return optimise(scenario, task_for(kind, scenario, trunk), limits);
}

/// A plan already found, as a task: only full ducts make it route again.
LayoutTask task_with(const graph::TwoLevelPlan& plan, graph::Cost bound, const Scenario& scenario,
                     const TrunkProblem& trunk) {
    LayoutTask task = task_for(LayoutKind::trunk, scenario, trunk);
    task.first_route = [&scenario, &trunk, &plan, bound](const graph::SolveLimits&) {
        return Routing{routed_by(plan, trunk.network, scenario, trunk, LayoutKind::trunk), bound, false, {}};
    };
    const auto count = static_cast<std::int32_t>(plan.open.size());
    task.route = [&scenario, &trunk, count](const Network& on, const graph::SolveLimits& run) {
        graph::TwoLevelProblem problem = problem_on(on, scenario, trunk, LayoutKind::trunk);
        problem.fewest_sites = problem.most_sites = count;
        const auto again = solve_by_measure(problem, run);
        Routing routing;
        if (again.plan) routing.routed = routed_by(*again.plan, on, scenario, trunk, LayoutKind::trunk);
        return routing;
    };
    task.quick = true;
    return task;
}

}  // namespace

Design design_trunk(const Scenario& scenario, const DesignLimits& limits) {
    if (scenario.rules.most_enclosures != 1) return design_with(LayoutKind::trunk, scenario, limits);
    Design one = design_trunk_one(scenario, limits);
    one.layout = LayoutKind::trunk;
    for (std::optional<Plan>* plan : {&one.plan, &one.nearest}) {
        if (*plan) (*plan)->layout = LayoutKind::trunk;
    }
    return one;
}

Design design_mixed(const Scenario& scenario, const DesignLimits& limits) {
    return design_with(LayoutKind::mixed, scenario, limits);
}

std::vector<Design> design_by_enclosure_count(const Scenario& scenario, const DesignLimits& limits) {
    std::vector<Design> designs;
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty()) return designs;
    const TimeLeft time(limits);
    const auto problem = problem_on(trunk.network, scenario, trunk, LayoutKind::trunk);
    const auto solution = solve_by_measure(problem, time.run(0.5));
    for (std::size_t count = 1; count < solution.best_by_count.size(); ++count) {
        const auto& plan = solution.best_by_count[count];
        Design design = plan ? optimise(scenario, task_with(*plan, solution.bound, scenario, trunk), limits)
                             : infeasible(LayoutKind::trunk, "no plan was found with so many enclosures");
        // Fewer that come out cheaper are a plan for this number too only where one serves nobody; then it says
        // nothing.
        if (design.plan && design.plan->enclosures.size() < count) {
            design = infeasible(LayoutKind::trunk, "so many enclosures do not pay: one would serve no building");
        }
        design.interrupted = solution.interrupted;
        designs.push_back(std::move(design));
    }
    if (designs.empty()) return designs;
    Design one = design_trunk_one(scenario, {time.seconds(), limits.threads, limits.seed, limits.progress});
    std::vector<Design> pair = {std::move(one), std::move(designs.front())};
    reconcile(scenario, pair);
    pair[1].direct_bound = std::max(pair[1].direct_bound, pair[0].direct_bound);
    designs.front() = std::move(pair[1]);
    return designs;
}

}  // namespace spadework
