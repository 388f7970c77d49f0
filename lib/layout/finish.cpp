#include "layout/finish.hpp"

#include "layout/assembly.hpp"
#include "layout/duct_room.hpp"

namespace spadework {

namespace {

constexpr int most_reroutings = 3;

WithheldWays over_room(const Scenario& scenario, const RoutedLayout& routed) {
    std::vector<const std::vector<Step>*> routes;
    for (const RoutedEnclosure& enclosure : routed.enclosures)
        routes.push_back(&enclosure.trunk.steps);
    for (const RoutedBuilding& building : routed.buildings)
        routes.push_back(&building.route.steps);
    return ways_over_room(scenario, routes);
}

/// Keeps the cheaper of the plan in the design and the assembled one.
void keep_cheaper(const Scenario& scenario, Assembly assembly, Design& design) {
    if (!assembly.plan) {
        if (design.reason.empty()) design.reason = assembly.reason;
        return;
    }
    if (design.plan && cost_that_differs(scenario, *design.plan) <= cost_that_differs(scenario, *assembly.plan)) return;
    design.plan = std::move(assembly.plan);
    design.notes = std::move(assembly.notes);
}

void try_without_full_ducts(const Scenario& scenario, const RoutedLayout& routed, const Reroute& reroute,
                            Design& design) {
    WithheldWays withheld;
    WithheldWays over = over_room(scenario, routed);
    for (int round = 0; round < most_reroutings && !over.empty(); ++round) {
        withheld.insert(over.begin(), over.end());
        const auto again = reroute(network_of(scenario, withheld));
        if (!again) return;
        keep_cheaper(scenario, assemble(scenario, *again), design);
        over = over_room(scenario, *again);
    }
}

}  // namespace

void finish(const Scenario& scenario, const RoutedLayout& routed, const Reroute& reroute,
            const std::vector<RoutedLayout>& fallbacks, Design& design) {
    keep_cheaper(scenario, assemble(scenario, routed), design);
    try_without_full_ducts(scenario, routed, reroute, design);
    for (const RoutedLayout& fallback : fallbacks) {
        if (design.plan) break;
        keep_cheaper(scenario, assemble(scenario, fallback), design);
    }
    if (design.plan) design.reason.clear();
}

}  // namespace spadework
