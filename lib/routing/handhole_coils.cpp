#include "routing/handhole_coils.hpp"

#include <algorithm>

#include "graph/saturating.hpp"

namespace spadework {

namespace {

/// By place: half of the coil that a cable leaves there when it passes, in millimetres.
std::vector<graph::Length> half_coils_by_place(const Scenario& scenario) {
    std::vector<graph::Length> halves;
    for (const Place& place : scenario.places)
        halves.push_back(place.kind == PlaceKind::handhole ? half_coil(scenario).millimetres() : 0);
    halves[static_cast<std::size_t>(scenario.hub.place)] = 0;
    for (const Building& building : scenario.buildings)
        halves[static_cast<std::size_t>(building.place)] = 0;
    return halves;
}

}  // namespace

Length half_coil(const Scenario& scenario) {
    return Length::from_millimetres(scenario.rules.slack.coil_per_handhole.millimetres() / 2);
}

bool leaves_coils_at(const Scenario& scenario, PlaceIndex place) {
    const auto stands_here = [place](const Building& building) { return building.place == place; };
    return scenario.places[static_cast<std::size_t>(place)].kind == PlaceKind::handhole &&
           place != scenario.hub.place && std::ranges::none_of(scenario.buildings, stands_here);
}

Network with_handhole_coils(const Scenario& scenario, Network network) {
    const std::vector<graph::Length> halves = half_coils_by_place(scenario);
    for (graph::SharedCostEdge& edge : network.edges)
        edge.length += halves[static_cast<std::size_t>(edge.tail)] + halves[static_cast<std::size_t>(edge.head)];
    return network;
}

Money half_coils(const Scenario& scenario, const std::vector<UnitPrice>& per_route_metre) {
    constexpr graph::WideCost thousandths_and_millimetres = 1'000'000;
    Money sum;
    for (const UnitPrice& price : per_route_metre) {
        const graph::WideCost exact =
            static_cast<graph::WideCost>(price.thousandths()) * half_coil(scenario).millimetres();
        sum += Money::from_minor(
            graph::saturated((exact + thousandths_and_millimetres - 1) / thousandths_and_millimetres));
    }
    return sum;
}

}  // namespace spadework
