#include "layout/optimise.hpp"

#include <algorithm>

#include "layout/assembly.hpp"
#include "layout/designs.hpp"
#include "layout/duct_room.hpp"
#include "layout/room_prices.hpp"
#include "layout/time_left.hpp"

namespace spadework {

namespace {

constexpr int most_withholdings = 3;
constexpr int most_price_rounds = 40;
constexpr int rounds_before_halving = 3;

WithheldWays over_room(const Scenario& scenario, const RoutedLayout& routed) {
    std::vector<const std::vector<Step>*> routes;
    for (const RoutedEnclosure& enclosure : routed.enclosures)
        routes.push_back(&enclosure.trunk.steps);
    for (const RoutedBuilding& building : routed.buildings)
        routes.push_back(&building.route.steps);
    for (const Route& closing : routed.closings)
        routes.push_back(&closing.steps);
    return ways_over_room(scenario, routes);
}

/// Keeps the cheaper of the plan in the design and the one made of the routes.
void keep_cheaper(const Scenario& scenario, const RoutedLayout& routed, Design& design) {
    Assembly assembly = assemble(scenario, routed);
    if (!assembly.plan) {
        if (design.reason.empty()) design.reason = assembly.reason;
        if (!design.nearest) design.nearest = std::move(assembly.nearest);
        return;
    }
    if (design.plan && cost_to_build(scenario, *design.plan) <= cost_to_build(scenario, *assembly.plan)) return;
    design.plan = std::move(assembly.plan);
    design.notes = std::move(assembly.notes);
}

/// The same of all that a routing found.
void keep_cheapest(const Scenario& scenario, const Routing& routing, Design& design) {
    keep_cheaper(scenario, *routing.routed, design);
    for (const RoutedLayout& other : routing.others)
        keep_cheaper(scenario, other, design);
}

Routing routed_first(const LayoutTask& task, const graph::SolveLimits& run) {
    return task.first_route ? task.first_route(run) : task.route(*task.network, run);
}

/// Routes again without the ways that came out over their room.
void withhold_full_ducts(const Scenario& scenario, const LayoutTask& task, const RoutedLayout& first,
                         const TimeLeft& time, Design& design) {
    WithheldWays withheld;
    WithheldWays over = over_room(scenario, first);
    for (int round = 0; round < most_withholdings && !over.empty() && !time.asked_to_stop(); ++round) {
        withheld.insert(over.begin(), over.end());
        const Routing again = task.route(network_of(scenario, withheld), time.run(0.2));
        if (!again.routed) return;
        keep_cheapest(scenario, again, design);
        over = over_room(scenario, *again.routed);
    }
}

graph::Cost gap_of(const Scenario& scenario, const LayoutTask& task, const Design& design) {
    if (!design.plan) return 0;
    const Money gap = cost_to_build(scenario, *design.plan) - design.direct_bound;
    return std::max<graph::Cost>(0, task.network->scale.units(gap));
}

/// Routes again with a price on room in the ducts, which also proves how much their shortage must cost. The steps are
/// halved whenever the bound has not risen for a few rounds.
void price_full_ducts(const Scenario& scenario, const LayoutTask& task, const RoutedLayout& first, const TimeLeft& time,
                      Design& design) {
    RoomPrices prices(*task.network);
    double share = 1.0;
    int without_rise = 0;
    if (!prices.any_room() || !prices.adjust(first, gap_of(scenario, task, design), share)) return;
    for (int round = 1; round <= most_price_rounds && !time.asked_to_stop(); ++round) {
        const Routing again = task.route(prices.priced(), time.run(0.1));
        if (!again.routed) return;
        const graph::Cost bound = again.bound - prices.rebate();
        const Money direct = task.constant + task.network->scale.money(bound);
        without_rise = direct > design.direct_bound ? 0 : without_rise + 1;
        if (direct > design.direct_bound) {
            design.direct_bound = direct;
            design.certificate = certified(task.constant, *task.network, prices.priced(), again.proof);
        }
        if (without_rise == rounds_before_halving) {
            share /= 2;
            without_rise = 0;
        }
        keep_cheapest(scenario, again, design);
        prices.adjust(*again.routed, gap_of(scenario, task, design), share);
    }
}

}  // namespace

Design optimise(const Scenario& scenario, const LayoutTask& task, const DesignLimits& limits) {
    const TimeLeft time(limits);
    const bool ducts = RoomPrices(*task.network).any_room();
    const Routing first = routed_first(task, time.run(ducts ? 0.4 : task.other_routes ? 0.7 : 1.0));
    if (!first.routed) return infeasible(task.kind, task.why_no_route);
    Design design;
    design.layout = task.kind;
    design.interrupted = first.interrupted;
    design.direct_bound = task.constant + task.network->scale.money(first.bound);
    design.certificate = certified(task.constant, *task.network, *task.network, first.proof);
    keep_cheapest(scenario, first, design);
    if (task.other_routes) {
        for (const RoutedLayout& other : task.other_routes(time.run(0.4)))
            keep_cheaper(scenario, other, design);
    }
    withhold_full_ducts(scenario, task, *first.routed, time, design);
    const bool quick = task.quick || limits.target_gap >= 1;
    if (!quick) price_full_ducts(scenario, task, *first.routed, time, design);
    if (!design.plan && task.fallbacks) {
        for (const RoutedLayout& fallback : task.fallbacks(*first.routed)) {
            keep_cheaper(scenario, fallback, design);
            if (design.plan) break;
        }
    }
    if (!design.plan) return design;
    design.reason.clear();
    design.nearest.reset();
    return design;
}

}  // namespace spadework
