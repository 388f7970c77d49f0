#include "layout/trunk_problem.hpp"

#include "layout/enclosure_places.hpp"
#include "routing/handhole_coils.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

void note_what_is_missing(const Scenario& scenario, TrunkProblem& problem) {
    problem.impossible = problem.service.impossible;
    if (!problem.impossible.empty()) return;
    if (scenario.rules.most_enclosures < 1) {
        problem.impossible = "the rules allow no enclosure (max-enclosures is 0)";
    } else if (scenario.catalogue.enclosures.empty()) {
        problem.impossible = "the catalogue has no enclosure";
    } else if (problem.places.empty()) {
        problem.impossible = "no place that the hub can reach may hold an enclosure";
    } else if (problem.sizes.empty()) {
        problem.impossible = "the catalogue has no cable or enclosure large enough for a trunk";
    }
}

}  // namespace

TrunkProblem trunk_problem(const Scenario& scenario) {
    TrunkProblem problem;
    problem.network = network_of(scenario);
    problem.with_coils = with_handhole_coils(scenario, problem.network);
    problem.from_hub = shortest_ways(problem.network, scenario.hub.place);
    problem.service = service_figures(scenario, problem.network.scale, problem.from_hub);
    problem.places = enclosure_places(scenario, problem.from_hub);
    for (const Building& building : scenario.buildings) {
        const int strands = strands_in_use(building, scenario.rules);
        problem.strands_in_use += strands;
        problem.trunk_end_work += least_trunk_end_work(scenario, strands);
    }
    problem.trunk_end_work = problem.trunk_end_work - trunk_rounding(scenario, problem.strands_in_use);
    problem.sizes = trunk_sizes(scenario, problem.network.scale, problem.strands_in_use);
    note_what_is_missing(scenario, problem);
    return problem;
}

namespace {

/// Leaves out enclosures that no building hangs from.
void drop_idle_enclosures(RoutedLayout& routed) {
    std::vector<int> number(routed.enclosures.size(), -1);
    for (const RoutedBuilding& building : routed.buildings)
        number[static_cast<std::size_t>(building.served_by)] = 0;
    std::vector<RoutedEnclosure> serving;
    for (std::size_t e = 0; e < number.size(); ++e) {
        if (number[e] < 0) continue;
        number[e] = static_cast<int>(serving.size());
        serving.push_back(std::move(routed.enclosures[e]));
    }
    routed.enclosures = std::move(serving);
    for (RoutedBuilding& building : routed.buildings)
        building.served_by = number[static_cast<std::size_t>(building.served_by)];
}

}  // namespace

RoutedLayout trunk_by_shortest_ways(const Scenario& scenario, const TrunkProblem& problem, LayoutKind kind,
                                    const std::vector<PlaceIndex>& enclosures) {
    RoutedLayout routed;
    routed.kind = kind;
    std::vector<ShortestWays> from_enclosure;
    for (const PlaceIndex place : enclosures) {
        const auto trunk = way_to(problem.from_hub, problem.network, place);
        routed.enclosures.push_back({place, route_along(problem.network, trunk, scenario.hub.place, place)});
        from_enclosure.push_back(shortest_ways(problem.network, place));
    }
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const auto at = static_cast<std::size_t>(scenario.buildings[b].place);
        std::size_t best = 0;
        const auto link_length = [&](std::size_t e) {
            return *problem.from_hub.length[static_cast<std::size_t>(enclosures[e])] + *from_enclosure[e].length[at];
        };
        for (std::size_t e = 1; e < enclosures.size(); ++e) {
            if (link_length(e) < link_length(best)) best = e;
        }
        const auto path = way_to(from_enclosure[best], problem.network, scenario.buildings[b].place);
        routed.buildings.push_back({static_cast<BuildingIndex>(b), static_cast<int>(best),
                                    route_along(problem.network, path, enclosures[best], scenario.buildings[b].place)});
    }
    drop_idle_enclosures(routed);
    return routed;
}

}  // namespace spadework
