#include <algorithm>
#include <limits>
#include <numeric>

#include "graph/shared_cost_solver.hpp"
#include "layout/assembly.hpp"
#include "layout/bought_bound.hpp"
#include "layout/bought_rerouting.hpp"
#include "layout/designs.hpp"
#include "layout/optimise.hpp"
#include "layout/room_prices.hpp"
#include "layout/time_left.hpp"
#include "layout/trunk_problem.hpp"
#include "routing/handhole_coils.hpp"
#include "routing/one_measure.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// What the cables cost beyond their figures with the enclosure at a place, because none is shorter than the shortest
/// way. Drops so short that no place could make them cost more are not measured.
class BeyondFigures {
public:
    BeyondFigures(const Scenario& scenario, const TrunkProblem& trunk) : scenario_(scenario), trunk_(trunk) {
        Length farthest;
        for (const PlaceIndex place : trunk.places)
            farthest = std::max(farthest, from_hub(place));
        for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
            const auto building = static_cast<BuildingIndex>(b);
            const PlaceIndex at = scenario.buildings[b].place;
            if (beyond_service_figures(scenario, building, farthest + from_hub(at)) == Money()) continue;
            long_drops_.emplace_back(building, shortest_ways(trunk.network, at));
        }
    }

    /// Of each building's drop in order, then of the trunk.
    [[nodiscard]] std::vector<Money> at(PlaceIndex place) const {
        std::vector<Money> beyond(scenario_.buildings.size());
        for (const auto& [building, ways] : long_drops_) {
            beyond[static_cast<std::size_t>(building)] =
                beyond_service_figures(scenario_, building, *ways.length[static_cast<std::size_t>(place)]);
        }
        beyond.push_back(beyond_trunk_figures(scenario_, trunk_.strands_in_use, from_hub(place)));
        return beyond;
    }

private:
    [[nodiscard]] Length from_hub(PlaceIndex place) const {
        return *trunk_.from_hub.length[static_cast<std::size_t>(place)];
    }

    const Scenario& scenario_;
    const TrunkProblem& trunk_;
    std::vector<std::pair<BuildingIndex, ShortestWays>> long_drops_;
};

int trunk_strands(const Scenario& scenario, const TrunkProblem& trunk) {
    return trunk_need(trunk.strands_in_use, scenario.rules, scenario.growth).total();
}

/// Figures of the one trunk, which is there: trunk_holds_all().
CableFigures trunk_cable(const Scenario& scenario, const TrunkProblem& trunk) {
    return cable_figures(scenario, trunk.network.scale, {0, trunk_strands(scenario, trunk), 0})
        .value_or(CableFigures());
}

/// Half a coil of every cable: they all begin or end at the enclosure, and in a handhole pay so much too much there.
Money half_coils_at_enclosure(const Scenario& scenario, const TrunkProblem& trunk) {
    std::vector<UnitPrice> prices;
    for (const CableFigures& cable : trunk.service.cables)
        prices.push_back(cable.per_route_metre);
    prices.push_back(trunk_cable(scenario, trunk).per_route_metre);
    return half_coils(scenario, prices);
}

/// The enclosure is the root; every building hangs from it, and so does the hub, at the trunk's price.
graph::SharedCostProblem rooted_at(const std::vector<PlaceIndex>& places, const Network& network,
                                   const Scenario& scenario, const TrunkProblem& trunk, const BeyondFigures& beyond) {
    graph::SharedCostProblem problem{network.vertex_count, network.edges, {}, {}};
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const CableFigures& cable = trunk.service.cables[b];
        problem.demands.push_back({scenario.buildings[b].place, cable.weight, cable.multiplicity});
    }
    const graph::FeederSize& size = trunk.sizes.back();
    problem.demands.push_back({scenario.hub.place, size.weight, size.multiplicity});
    for (const PlaceIndex place : places) {
        const std::vector<Money> more = beyond.at(place);
        Money cost = scenario.places[static_cast<std::size_t>(place)].enclosure_extra;
        cost = std::accumulate(more.begin(), more.end(), cost);
        if (!leaves_coils_at(scenario, place)) cost += half_coils_at_enclosure(scenario, trunk);
        problem.roots.push_back({place, network.scale.units(cost)});
    }
    return problem;
}

/// The drops and the trunk as they are bought.
BoughtCables bought_cables(const std::vector<PlaceIndex>& places, const Scenario& scenario, const TrunkProblem& trunk,
                           const BeyondFigures& beyond) {
    BoughtCables cables{trunk.network.scale, bought_demands(scenario, trunk.service), {}};
    std::vector<CableFigures> figures = trunk.service.cables;
    figures.push_back(trunk_cable(scenario, trunk));
    cables.demands.push_back({BoughtCable(scenario, trunk_strands(scenario, trunk)), figures.back().of_product});
    for (const PlaceIndex place : places) {
        BoughtRoot root{0, beyond.at(place)};
        const bool coils = leaves_coils_at(scenario, place);
        if (coils) root.coil_too_much = half_coil(scenario).millimetres();
        for (std::size_t d = 0; d < figures.size(); ++d) {
            root.counted[d] += figures[d].of_product;
            if (coils) root.counted[d] = root.counted[d] - half_coils(scenario, {figures[d].per_route_metre});
        }
        cables.roots.push_back(std::move(root));
    }
    return cables;
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

/// Cost of every plan beside its routes and its place's cost, with the enclosure in a handhole.
Money constant_cost(const Scenario& scenario, const TrunkProblem& trunk) {
    return trunk.service.constant + trunk.trunk_end_work + trunk.network.scale.money(trunk.sizes.back().fixed) -
           half_coils_at_enclosure(scenario, trunk);
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

/// What order lengths and joints leave open is more than this: to prove routes closer takes time and shows nowhere.
constexpr double kCloseEnough = 5e-5;

graph::SolveLimits not_closer_than_shows(graph::SolveLimits run) {
    run.target_gap = std::max(run.target_gap, kCloseEnough);
    return run;
}

/// All of a task but how to route.
LayoutTask bare_task(const Scenario& scenario, const TrunkProblem& trunk) {
    LayoutTask task;
    task.kind = LayoutKind::trunk_one;
    task.network = &trunk.with_coils;
    task.constant = constant_cost(scenario, trunk);
    task.why_no_route = "not every building has a way to the hub";
    return task;
}

/// The layout with its enclosure at one of the given places, wherever it comes out cheapest.
/// `place_bounds`, where given, keeps what the first run proves of each place. A bound of `enough` on routes and places
/// need not be raised further.
LayoutTask task_at(const std::vector<PlaceIndex>& places, const Scenario& scenario, const TrunkProblem& trunk,
                   const BeyondFigures& beyond, std::vector<graph::Cost>* place_bounds = nullptr,
                   graph::Cost enough = std::numeric_limits<graph::Cost>::max()) {
    LayoutTask task = bare_task(scenario, trunk);
    task.route = [&scenario, &trunk, &beyond, places, place_bounds, enough](const Network& on, graph::SolveLimits run) {
        run.bound_wanted = enough;
        const graph::SharedCostProblem problem = rooted_at(places, on, scenario, trunk, beyond);
        const graph::pair_routes::StopRule time(run.seconds, run.progress);
        MeasuredSolution solution = solve_by_measure(problem, not_closer_than_shows(run));
        const BoughtCables cables = bought_cables(places, scenario, trunk, beyond);
        if (run.target_gap < 1 && solution.bound < enough) raise_by_bought_cables(problem, cables, time, solution);
        if (place_bounds != nullptr && place_bounds->empty()) *place_bounds = solution.root_bounds;
        Routing routing{std::nullopt, solution.bound, solution.interrupted, {solution.proofs, {}, {}}};
        if (!solution.plan) return routing;
        const PlaceIndex enclosure = places[static_cast<std::size_t>(solution.plan->root)];
        routing.routed = routed_by(*solution.plan, enclosure, on, scenario);
        if (run.target_gap < 1 && solution.bound < enough) {
            const graph::SharedCostPlan other = rerouted_as_bought(problem, cables, *solution.plan, time);
            if (other.paths != solution.plan->paths)
                routing.others.push_back(routed_by(other, enclosure, on, scenario));
        }
        return routing;
    };
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

/// One place worked out quickly: a sketch instead of a full solve, for ranking many.
Design sketch_at(PlaceIndex place, const Scenario& scenario, const TrunkProblem& trunk, const BeyondFigures& beyond,
                 const DesignLimits& limits) {
    LayoutTask task = bare_task(scenario, trunk);
    task.quick = true;
    task.route = [&](const Network& on, const graph::SolveLimits& run) {
        const auto here = graph::sketch(rooted_at({place}, on, scenario, trunk, beyond), run);
        return Routing{routed_by(*here.plan, place, on, scenario), 0, false, {}};
    };
    return optimise(scenario, task, limits);
}

/// Positions in the list of places, lowest bound first: when time runs out, the best have been looked at.
std::vector<std::size_t> by_bound(const std::vector<graph::Cost>& bounds) {
    std::vector<std::size_t> order(bounds.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t p) { return bounds[p]; });
    return order;
}

/// The places whose plans came out cheapest, at most so many, as positions in the list.
std::vector<std::size_t> cheapest_places(const Scenario& scenario, const std::vector<PlaceDesign>& designs,
                                         std::size_t most) {
    std::vector<std::pair<Money, std::size_t>> order;
    for (std::size_t p = 0; p < designs.size(); ++p) {
        const auto& plan = designs[p].design.plan;
        if (plan) order.emplace_back(cost_to_build(scenario, *plan), p);
    }
    std::sort(order.begin(), order.end());
    std::vector<std::size_t> places;
    for (const auto& [cost, p] : order) {
        if (places.size() < most) places.push_back(p);
    }
    return places;
}

/// The best of the places is a plan of the layout, and the least of their bounds, where all were looked at, bounds it.
void look_at_places(const Scenario& scenario, const std::vector<PlaceDesign>& places, bool all, Design& design) {
    std::optional<Money> least;
    for (const PlaceDesign& place : places) {
        least = least ? std::min(*least, place.design.direct_bound) : place.design.direct_bound;
        const auto& plan = place.design.plan;
        if (!plan || cost_to_build(scenario, *design.plan) <= cost_to_build(scenario, *plan)) continue;
        design.plan = plan;
        design.notes = place.design.notes;
    }
    if (!all || !least || *least <= design.direct_bound) return;
    design.direct_bound = *least;
    for (const PlaceDesign& place : places)
        design.certificate.add(place.design.certificate);
}

/// Takes over the cheaper plan and the higher bound.
void take_over(const Scenario& scenario, Design other, Design& design) {
    if (other.direct_bound > design.direct_bound) design.certificate.add(other.certificate);
    design.direct_bound = std::max(design.direct_bound, other.direct_bound);
    if (!other.plan) return;
    if (design.plan && cost_to_build(scenario, *design.plan) <= cost_to_build(scenario, *other.plan)) return;
    other.direct_bound = design.direct_bound;
    other.certificate = std::move(design.certificate);
    design = std::move(other);
}

/// Whether a plan with that bound may be cheaper than the design's by so much that it shows.
bool leaves_a_chance(const Scenario& scenario, Money bound, const Design& design) {
    const auto cost = static_cast<double>(cost_to_build(scenario, *design.plan).minor());
    return static_cast<double>(bound.minor()) < cost * (1.0 - kCloseEnough);
}

/// Works out the places whose bounds leave them a chance, lowest bound first: what a router does not see, such as
/// joints and order lengths, may make another place the cheapest; and each place alone can be bounded more closely, as
/// far as it takes to show that it is no cheaper than the best plan. It ends with the place that then has the lowest
/// bound, as nothing more would raise that of the layout.
void try_promising_places(const Scenario& scenario, const TrunkProblem& trunk, const BeyondFigures& beyond,
                          const std::vector<graph::Cost>& bounds, const DesignLimits& limits, Design& design) {
    constexpr std::size_t most_places = 12;
    std::vector<Money> direct;
    for (const graph::Cost bound : bounds)
        direct.push_back(constant_cost(scenario, trunk) + trunk.network.scale.money(bound));
    const TimeLeft time(limits);
    std::size_t tried = 0;
    std::optional<Money> least_tried;
    for (const std::size_t p : by_bound(bounds)) {
        if (tried++ == most_places || !leaves_a_chance(scenario, direct[p], design) || time.asked_to_stop()) break;
        if (least_tried && *least_tried <= direct[p]) break;
        const DesignLimits share{time.seconds() / 2, limits.threads, limits.seed, limits.progress, limits.target_gap};
        const Money routes = cost_to_build(scenario, *design.plan) - constant_cost(scenario, trunk);
        const graph::Cost enough = trunk.network.scale.units(std::max(Money(), routes));
        Design other = optimise(scenario, task_at({trunk.places[p]}, scenario, trunk, beyond, nullptr, enough), share);
        if (other.direct_bound > direct[p]) {
            direct[p] = other.direct_bound;
            design.certificate.add(other.certificate);
        }
        least_tried = least_tried ? std::min(*least_tried, direct[p]) : direct[p];
        other.direct_bound = Money();
        take_over(scenario, std::move(other), design);
    }
    if (!direct.empty()) design.direct_bound = std::max(design.direct_bound, *std::ranges::min_element(direct));
}

}  // namespace

Design design_trunk_one(const Scenario& scenario, const DesignLimits& limits) {
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty()) return impossible(LayoutKind::trunk_one, trunk.impossible);
    if (!trunk_holds_all(trunk))
        return infeasible(LayoutKind::trunk_one, "one trunk cannot hold every building's strands");
    const TimeLeft time(limits);
    const BeyondFigures beyond(scenario, trunk);
    std::vector<graph::Cost> place_bounds;
    LayoutTask task = task_at(trunk.places, scenario, trunk, beyond, &place_bounds);
    task.fallbacks = [&](const RoutedLayout& routed) {
        return shortest_through_places(scenario, trunk, routed.enclosures.front().place);
    };
    const bool ducts = RoomPrices(trunk.network).any_room();
    const auto share = [&](double part) {
        return DesignLimits{time.seconds() * part, limits.threads, limits.seed, limits.progress, limits.target_gap};
    };
    Design design = optimise(scenario, task, share(ducts ? 0.5 : 1.0));
    if (!ducts && design.plan) try_promising_places(scenario, trunk, beyond, place_bounds, share(0.5), design);
    if (ducts && design.plan) {
        const std::vector<PlaceDesign> places = design_at_every_place(scenario, share(1.0));
        look_at_places(scenario, places, places.size() == trunk.places.size(), design);
    }
    return design;
}

std::vector<PlaceDesign> design_at_every_place(const Scenario& scenario, const DesignLimits& limits) {
    constexpr std::size_t worked_out_in_full = 5;
    constexpr double kept_back = 0.3;  // of the time, for the best places in full and for checking all
    std::vector<PlaceDesign> designs;
    const TrunkProblem trunk = trunk_problem(scenario);
    if (!trunk.impossible.empty() || !trunk_holds_all(trunk)) return designs;
    const TimeLeft time(limits);
    const BeyondFigures beyond(scenario, trunk);
    const auto everywhere = solve_by_measure(rooted_at(trunk.places, trunk.with_coils, scenario, trunk, beyond),
                                             not_closer_than_shows(time.run(0.3)));
    const Network& network = trunk.with_coils;
    const Money constant = constant_cost(scenario, trunk);
    const BoundCertificate proof = certified(constant, network, network, {everywhere.proofs, {}, {}});
    bool cut_short = false;
    for (const std::size_t p : by_bound(everywhere.root_bounds)) {
        cut_short = !designs.empty() && (time.asked_to_stop() || time.seconds() <= kept_back * limits.seconds);
        if (cut_short) break;
        designs.push_back({trunk.places[p], sketch_at(trunk.places[p], scenario, trunk, beyond, limits)});
        const Money bound = constant + network.scale.money(everywhere.root_bounds[p]);
        Design& here = designs.back().design;
        here.direct_bound = std::max(here.direct_bound, bound);
        here.certificate = proof;
        here.nearest.reset();  // A plan for each of thousands of places would be many; the reason is told alone.
    }
    for (const std::size_t p : cheapest_places(scenario, designs, worked_out_in_full)) {
        if (time.asked_to_stop()) break;
        const DesignLimits share{time.seconds() / 4, limits.threads, limits.seed, limits.progress};
        Design full = optimise(scenario, task_at({designs[p].place}, scenario, trunk, beyond), share);
        take_over(scenario, std::move(full), designs[p].design);
    }
    if (cut_short) designs.front().design.interrupted = true;
    return designs;
}

}  // namespace spadework
