#include "layout/nearest_plan.hpp"

#include <algorithm>
#include <tuple>
#include <utility>
#include <vector>

#include "layout/assembly.hpp"
#include "layout/lit_chains.hpp"
#include "layout/routed_layout.hpp"
#include "routing/distances.hpp"
#include "routing/network.hpp"

namespace spadework {

namespace {

/// Shortest ways from so many places are found at once on the largest maps; with more buildings chains are not drawn
/// up.
constexpr std::size_t most_searches = 64;

/// Routes by the shortest ways, from one place after another.
class ShortestRoutes {
public:
    explicit ShortestRoutes(const Scenario& scenario)
        : scenario_(scenario), network_(network_of(scenario)), from_hub_(shortest_ways(network_, scenario.hub.place)) {}

    [[nodiscard]] bool reach_all() const {
        return std::all_of(scenario_.buildings.begin(), scenario_.buildings.end(), [&](const Building& building) {
            return from_hub_.length[static_cast<std::size_t>(building.place)].has_value();
        });
    }

    [[nodiscard]] RoutedLayout from_hub() const {
        RoutedLayout routed;
        serve_all(from_hub_, scenario_.hub.place, -1, routed);
        return routed;
    }

    /// Nothing where no enclosure may stand anywhere.
    [[nodiscard]] std::optional<RoutedLayout> from_one_enclosure() const {
        const std::vector<Length> drops = length_of_drops();
        std::optional<PlaceIndex> best;
        Length shortest;
        for (std::size_t p = 0; p < scenario_.places.size(); ++p) {
            const Place& place = scenario_.places[p];
            if (!place.enclosure_allowed || place.laid_out || !from_hub_.length[p]) continue;
            const Length all = drops[p] + *from_hub_.length[p];
            if (best && all >= shortest) continue;
            best = static_cast<PlaceIndex>(p);
            shortest = all;
        }
        if (!best) return std::nullopt;
        RoutedLayout routed;
        routed.enclosures.push_back({*best, route(from_hub_, scenario_.hub.place, *best)});
        serve_all(shortest_ways(network_, *best), *best, 0, routed);
        return routed;
    }

    [[nodiscard]] RoutedLayout in_chains(bool closed) const {
        RoutedLayout routed;
        const std::vector<BuildingIndex> order = by_distance();
        const auto longest = static_cast<std::size_t>(longest_chain(scenario_));
        for (std::size_t first = 0; first < order.size(); first += longest) {
            const std::size_t last = std::min(order.size(), first + longest);
            routed.chains.emplace_back(order.begin() + static_cast<std::ptrdiff_t>(first),
                                       order.begin() + static_cast<std::ptrdiff_t>(last));
            PlaceIndex at = scenario_.hub.place;
            for (const BuildingIndex building : routed.chains.back()) {
                const PlaceIndex to = place_of(building);
                routed.buildings.push_back({building, -1, route(shortest_ways(network_, at), at, to)});
                at = to;
            }
            if (closed) routed.closings.push_back(route(from_hub_, scenario_.hub.place, at));
        }
        sort_by_building(routed);
        return routed;
    }

private:
    [[nodiscard]] PlaceIndex place_of(BuildingIndex building) const {
        return scenario_.buildings[static_cast<std::size_t>(building)].place;
    }

    [[nodiscard]] Route route(const ShortestWays& ways, PlaceIndex from, PlaceIndex to) const {
        return route_along(network_, way_to(ways, network_, to), from, to);
    }

    void serve_all(const ShortestWays& ways, PlaceIndex from, int served_by, RoutedLayout& routed) const {
        for (std::size_t b = 0; b < scenario_.buildings.size(); ++b) {
            routed.buildings.push_back(
                {static_cast<BuildingIndex>(b), served_by, route(ways, from, scenario_.buildings[b].place)});
        }
    }

    /// For each place the shortest ways from it to the buildings together; to the first of them where there are many.
    [[nodiscard]] std::vector<Length> length_of_drops() const {
        std::vector<Length> sums(scenario_.places.size());
        const std::size_t count = std::min(scenario_.buildings.size(), most_searches);
        for (std::size_t b = 0; b < count; ++b) {
            const ShortestWays ways = shortest_ways(network_, scenario_.buildings[b].place);
            for (std::size_t p = 0; p < sums.size(); ++p)
                sums[p] += ways.length[p].value_or(Length());
        }
        return sums;
    }

    [[nodiscard]] std::vector<BuildingIndex> by_distance() const {
        std::vector<std::pair<Length, BuildingIndex>> order;
        for (std::size_t b = 0; b < scenario_.buildings.size(); ++b) {
            const auto building = static_cast<BuildingIndex>(b);
            order.emplace_back(*from_hub_.length[static_cast<std::size_t>(place_of(building))], building);
        }
        std::sort(order.begin(), order.end());
        std::vector<BuildingIndex> buildings;
        for (const auto& [length, building] : order)
            buildings.push_back(building);
        return buildings;
    }

    const Scenario& scenario_;
    Network network_;
    ShortestWays from_hub_;
};

std::optional<RoutedLayout> shortest_routes(LayoutKind layout, const Scenario& scenario) {
    const ShortestRoutes routes(scenario);
    if (!routes.reach_all()) return std::nullopt;
    switch (layout) {
        case LayoutKind::home_runs:
        case LayoutKind::mixed:
            return routes.from_hub();
        case LayoutKind::trunk_one:
        case LayoutKind::trunk:
            return routes.from_one_enclosure();
        case LayoutKind::daisy_chain:
        case LayoutKind::ring:
            if (scenario.buildings.size() > most_searches) return std::nullopt;
            return routes.in_chains(layout == LayoutKind::ring);
    }
    return std::nullopt;
}

}  // namespace

std::optional<Plan> nearest_plan(LayoutKind layout, const Scenario& scenario) {
    auto routed = shortest_routes(layout, scenario);
    if (!routed) return std::nullopt;
    routed->kind = layout;
    Assembly assembly = assemble(scenario, *routed);
    return assembly.plan ? std::move(assembly.plan) : std::move(assembly.nearest);
}

}  // namespace spadework
