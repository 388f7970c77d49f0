#include "layout/ring_rule.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

constexpr std::size_t most_named = 5;

/// By segment the first hop and the last of a ring that pass it.
using Passes = std::map<SegmentIndex, std::pair<std::size_t, std::size_t>>;

void pass(const Route& route, std::size_t hop, Passes& passes) {
    for (const Step& step : route.steps)
        passes.try_emplace(step.segment, hop, hop).first->second.second = hop;
}

const Route& route_to(const RoutedLayout& routed, BuildingIndex building) {
    const auto found = std::find_if(routed.buildings.begin(), routed.buildings.end(),
                                    [building](const RoutedBuilding& b) { return b.building == building; });
    return found->route;
}

/// For each segment passed by more than one hop of a ring, the buildings its cut takes down: those between the hops.
std::map<SegmentIndex, std::vector<BuildingIndex>> lost_by_cut(const RoutedLayout& routed) {
    std::map<SegmentIndex, std::vector<BuildingIndex>> lost;
    for (std::size_t c = 0; c < routed.chains.size(); ++c) {
        const std::vector<BuildingIndex>& ring = routed.chains[c];
        Passes passes;
        for (std::size_t i = 0; i < ring.size(); ++i)
            pass(route_to(routed, ring[i]), i, passes);
        pass(routed.closings[c], ring.size(), passes);
        for (const auto& [segment, hops] : passes) {
            for (std::size_t i = hops.first; i < hops.second; ++i)
                lost[segment].push_back(ring[i]);
        }
    }
    return lost;
}

/// Which places have a way to the hub without the segment.
std::vector<char> joined_without(const Scenario& scenario, SegmentIndex cut,
                                 const std::vector<std::vector<std::pair<PlaceIndex, SegmentIndex>>>& steps) {
    std::vector<char> joined(scenario.places.size(), 0);
    std::vector<PlaceIndex> waiting{scenario.hub.place};
    joined[static_cast<std::size_t>(scenario.hub.place)] = 1;
    while (!waiting.empty()) {
        const PlaceIndex at = waiting.back();
        waiting.pop_back();
        for (const auto& [to, segment] : steps[static_cast<std::size_t>(at)]) {
            if (segment == cut || joined[static_cast<std::size_t>(to)] != 0) continue;
            joined[static_cast<std::size_t>(to)] = 1;
            waiting.push_back(to);
        }
    }
    return joined;
}

std::vector<std::vector<std::pair<PlaceIndex, SegmentIndex>>> steps_of(const Scenario& scenario) {
    std::vector<std::vector<std::pair<PlaceIndex, SegmentIndex>>> steps(scenario.places.size());
    for (std::size_t s = 0; s < scenario.segments.size(); ++s) {
        const Segment& segment = scenario.segments[s];
        if (ways_of(scenario, static_cast<SegmentIndex>(s)).empty()) continue;
        steps[static_cast<std::size_t>(segment.from)].emplace_back(segment.to, static_cast<SegmentIndex>(s));
        steps[static_cast<std::size_t>(segment.to)].emplace_back(segment.from, static_cast<SegmentIndex>(s));
    }
    return steps;
}

}  // namespace

bool rings_keep_apart(const Scenario& scenario, const RoutedLayout& routed) {
    const auto steps = steps_of(scenario);
    for (const auto& [segment, lost] : lost_by_cut(routed)) {
        const std::vector<char> joined = joined_without(scenario, segment, steps);
        for (const BuildingIndex building : lost) {
            const PlaceIndex place = scenario.buildings[static_cast<std::size_t>(building)].place;
            if (joined[static_cast<std::size_t>(place)] != 0) return false;
        }
    }
    return true;
}

std::vector<std::string> notes_on_cuts(const Scenario& scenario, const RoutedLayout& routed) {
    const auto lost = lost_by_cut(routed);
    if (lost.empty()) return {};
    std::vector<std::pair<std::size_t, SegmentIndex>> worst_first;
    for (const auto& [segment, buildings] : lost)
        worst_first.emplace_back(buildings.size(), segment);
    std::stable_sort(worst_first.begin(), worst_first.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    std::string named;
    for (std::size_t i = 0; i < std::min(most_named, worst_first.size()); ++i) {
        named += (i == 0 ? "" : ", ") + scenario.segments[static_cast<std::size_t>(worst_first[i].second)].id;
    }
    if (worst_first.size() > most_named) named += " and " + std::to_string(worst_first.size() - most_named) + " more";
    const std::size_t most = worst_first.front().first;
    return {"rings go both ways by segments that the map has no way round (" + named +
            "): the worst cut of one takes " + std::to_string(most) +
            (most == 1 ? " building down" : " buildings down")};
}

}  // namespace spadework
