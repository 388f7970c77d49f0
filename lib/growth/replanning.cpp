#include "growth/replanning.hpp"

#include <algorithm>

#include "growth/judging.hpp"
#include "layout/assembly.hpp"
#include "layout/design.hpp"

namespace spadework {

namespace {

constexpr double likely = 0.5;
/// Seconds for one place, and the gap at which its search stops.
constexpr double patience = 2;
constexpr double near_enough = 1e-3;

/// With those who are likely to come, and no place for an enclosure but the one.
Scenario as_if_there(const Scenario& scenario, PlaceIndex enclosure) {
    Scenario grown = scenario;
    const BitRate rate = commonest_rate(scenario);
    for (const FutureBuilding& future : scenario.growth.buildings) {
        if (future.chance >= likely && why_left_out(scenario, future).empty())
            grown.buildings.push_back(building_to_come(future, rate));
    }
    for (std::size_t p = 0; p < grown.places.size(); ++p)
        grown.places[p].enclosure_allowed = static_cast<PlaceIndex>(p) == enclosure;
    return grown;
}

Route route_of(const PlannedCable& cable) {
    Route route;
    route.from = cable.from;
    route.to = cable.to;
    route.steps = cable.steps;
    return route;
}

/// The routes to the first so many buildings.
std::optional<RoutedLayout> routes_to(std::size_t buildings, const Plan& plan) {
    if (plan.enclosures.size() != 1) return std::nullopt;
    const PlannedEnclosure& enclosure = plan.enclosures.front();
    RoutedLayout routed;
    routed.kind = LayoutKind::trunk_one;
    routed.enclosures = {{enclosure.place, route_of(plan.cables[static_cast<std::size_t>(enclosure.trunks.front())])}};
    for (std::size_t b = 0; b < buildings; ++b) {
        const auto index = static_cast<BuildingIndex>(b);
        const auto drop = std::find_if(plan.cables.begin(), plan.cables.end(), [&](const PlannedCable& cable) {
            return cable.role == CableRole::drop && cable.building == index;
        });
        if (drop == plan.cables.end()) return std::nullopt;
        routed.buildings.push_back({index, 0, route_of(*drop)});
    }
    return routed;
}

}  // namespace

std::optional<Plan> routed_for_growth(const Scenario& scenario, PlaceIndex enclosure) {
    const Scenario grown = as_if_there(scenario, enclosure);
    if (grown.buildings.size() == scenario.buildings.size()) return std::nullopt;
    DesignLimits limits;
    limits.seconds = patience;
    limits.target_gap = near_enough;
    const Design found = design(LayoutKind::trunk_one, grown, limits);
    if (!found.plan) return std::nullopt;
    const auto routed = routes_to(scenario.buildings.size(), *found.plan);
    if (!routed) return std::nullopt;
    return assemble(scenario, *routed).plan;
}

}  // namespace spadework
