#include <algorithm>

#include "graph/chain_solver.hpp"
#include "layout/designs.hpp"
#include "layout/hop_reach.hpp"
#include "layout/lit_chains.hpp"
#include "layout/optimise.hpp"
#include "layout/service_figures.hpp"
#include "routing/handhole_coils.hpp"

namespace spadework {

namespace {

/// Least cost of a building's gear as a through station, and what a chain's last building saves against that.
struct StationCost {
    Money through;
    Money saving_at_end;
    std::string impossible;
};

Money gear_price(const Scenario& scenario, const Pieces& pieces) {
    const auto& product = scenario.catalogue.building_gear[static_cast<std::size_t>(pieces.product)];
    return price_installed(product, pieces.count, scenario.labour);
}

/// A building that no gear lets the light pass on from can only end a chain: it counts at its end's price.
StationCost station_cost(const Scenario& scenario, const Building& building) {
    const int links = links_per_hop(scenario);
    const BitRate rate = fastest_rate(scenario);
    const auto end = cheapest_building_gear(scenario, building, {links, rate});
    const auto through = cheapest_building_gear(scenario, building, {2 * links, rate});
    if (!end) {
        return {Money(), Money(),
                "building " + building.id + ": no gear in the catalogue has the ports, power and rate it needs"};
    }
    const Money end_price = gear_price(scenario, *end);
    if (!through) return {end_price, Money(), ""};
    const Money through_price = gear_price(scenario, *through);
    return {through_price, through_price - end_price, ""};
}

/// What the chain problem needs beside the network.
struct ChainFigures {
    CableFigures hop;
    Money end_saving;  ///< The largest of any building's.
    Money constant;    ///< Least cost beside routes and end savings.
    std::optional<Length> longest_hop;
    std::string impossible;
};

ChainFigures no_chains(const std::string& reason) {
    return {{}, Money(), Money(), std::nullopt, reason};
}

ChainFigures chain_figures(const Scenario& scenario, const CostScale& scale) {
    ChainFigures figures;
    const int links = links_per_hop(scenario);
    const auto hop = hop_figures(scenario, scale);
    if (!hop) return no_chains("the catalogue has no cable");
    figures.hop = *hop;
    for (const Building& building : scenario.buildings) {
        const StationCost station = station_cost(scenario, building);
        const LeastCost link = least_link_cost(scenario, building, fastest_rate(scenario), Length());
        const std::string& impossible = station.impossible.empty() ? link.impossible : station.impossible;
        if (!impossible.empty()) return no_chains(impossible);
        figures.constant += hop->ends - hop->rounding + station.through + link.cost * links;
        figures.end_saving = std::max(figures.end_saving, station.saving_at_end);
    }
    const LeastCost hub = hub_for_ends(scenario, least_chain_count(scenario));
    figures.impossible = hub.impossible;
    figures.longest_hop = longest_hop(scenario);
    figures.constant += hub.cost + scenario.labour.mobilisation;
    return figures;
}

graph::ChainProblem problem_on(const Network& network, const Scenario& scenario, const ChainFigures& figures) {
    graph::ChainProblem problem;
    problem.vertex_count = network.vertex_count;
    problem.edges = network.edges;
    problem.source = scenario.hub.place;
    for (const Building& building : scenario.buildings)
        problem.stops.push_back(building.place);
    problem.weight = figures.hop.weight;
    problem.multiplicity = figures.hop.multiplicity;
    problem.end_saving = network.scale.units(figures.end_saving);
    problem.longest_chain = longest_chain(scenario);
    if (figures.longest_hop) {
        problem.span_of = hop_spans(scenario, network);
        problem.longest_hop = figures.longest_hop->millimetres();
    }
    return problem;
}

/// Whether the number of chains changes what the hub costs or what the ends of chains save.
bool chains_have_a_price(const Scenario& scenario, const ChainFigures& figures) {
    const int most = static_cast<int>(scenario.buildings.size());
    const Money fewest_chains = hub_for_ends(scenario, least_chain_count(scenario)).cost;
    return figures.end_saving > Money() || hub_for_ends(scenario, most).cost > fewest_chains;
}

/// Hops too long for any optic in it say what is missing.
const std::optional<graph::ChainPlan>& plan_or_nearest(const graph::ChainSolution& solution) {
    return solution.plan ? solution.plan : solution.with_long_hops;
}

RoutedLayout routed_by(const graph::ChainPlan& plan, const Network& network, const Scenario& scenario) {
    RoutedLayout routed;
    routed.kind = LayoutKind::daisy_chain;
    for (const auto& chain : plan.chains)
        add_chain(chain, network, scenario, routed);
    sort_by_building(routed);
    return routed;
}

/// Every building at the end of a chain of its own, by the shortest way: the shortest single hops from the hub.
RoutedLayout one_building_a_chain(const Network& network, const ShortestWays& from_hub, const Scenario& scenario) {
    graph::ChainPlan plan;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        plan.chains.push_back({{static_cast<std::int32_t>(b), way_to(from_hub, network, scenario.buildings[b].place)}});
    }
    return routed_by(plan, network, scenario);
}

}  // namespace

Design design_daisy_chain(const Scenario& scenario, const DesignLimits& limits) {
    const Network network = with_handhole_coils(scenario, network_of(scenario));
    const ChainFigures figures = chain_figures(scenario, network.scale);
    if (!figures.impossible.empty()) return impossible(LayoutKind::daisy_chain, figures.impossible);
    LayoutTask task;
    task.kind = LayoutKind::daisy_chain;
    task.network = &network;
    task.constant = figures.constant;
    bool fewest = false;  // Whether the plan at hand has as few chains as there can be.
    task.route = [&](const Network& on, const graph::SolveLimits& run) {
        const auto problem = problem_on(on, scenario, figures);
        const auto solution = graph::solve(problem, run);
        Routing routing{std::nullopt, solution.bound, solution.interrupted, {}};
        routing.proof.chains = ProvedChains{problem, solution.certificate};
        const auto& plan = plan_or_nearest(solution);
        if (!plan) return routing;
        fewest = static_cast<int>(plan->chains.size()) == least_chain_count(scenario);
        routing.routed = routed_by(*plan, on, scenario);
        return routing;
    };
    task.fallbacks = [&](const RoutedLayout&) {
        const ShortestWays from_hub = shortest_ways(network, scenario.hub.place);
        return std::vector<RoutedLayout>{one_building_a_chain(network, from_hub, scenario)};
    };
    if (chains_have_a_price(scenario, figures)) {
        task.other_routes = [&](const graph::SolveLimits& run) {
            if (fewest) return std::vector<RoutedLayout>();
            graph::ChainProblem few_chains = problem_on(network, scenario, figures);
            few_chains.end_saving = 0;
            few_chains.chain_cost = network.scale.units(dearest_ends(scenario, 1));
            graph::SolveLimits plan_only = run;
            plan_only.target_gap = 1.0;
            const auto solution = graph::solve(few_chains, plan_only);
            std::vector<RoutedLayout> routes;
            if (solution.plan) routes.push_back(routed_by(*solution.plan, network, scenario));
            return routes;
        };
    }
    task.why_no_route = "not every building has a way to the hub";
    return optimise(scenario, task, limits);
}

}  // namespace spadework
