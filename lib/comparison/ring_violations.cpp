#include <algorithm>
#include <map>
#include <set>
#include <vector>

#include <fmt/format.h>

#include "comparison/verification_parts.hpp"

namespace spadework::verification {

namespace {

/// A cable of a ring with the building or hub (-1) at either end.
struct Side {
    int cable = 0;
    BuildingIndex from = -1;
    BuildingIndex to = -1;
};

/// The sides of the links, in the plan's order.
std::vector<Side> sides_of(const Plan& plan) {
    std::vector<Side> sides;
    for (const PlannedLink& link : plan.links) {
        for (const int cable : link.cables)
            sides.push_back({cable, link.from.value_or(-1), link.building});
    }
    return sides;
}

/// Links between neighbours in a ring must be as many as any building wants.
void check_ring(const Scenario& scenario, const Plan& plan, const std::vector<BuildingIndex>& ring, Sentences& found) {
    if (ring.empty()) {
        found.emplace_back("A ring has no building.");
        return;
    }
    int wanted = 1;
    for (const Building& building : scenario.buildings) {
        int links = 0;
        for (const LinkDemand& demand : building.links)
            links += demand.count;
        wanted = std::max(wanted, links);
    }
    for (std::size_t i = 0; i <= ring.size(); ++i) {
        const bool closing = i == ring.size();
        const BuildingIndex from = i == 0 || closing ? -1 : ring[i - 1];
        const BuildingIndex to = closing ? ring.back() : ring[i];
        int links = 0;
        for (const Side& side : sides_of(plan)) {
            const bool closes = item(plan.cables, side.cable).role == CableRole::closing;
            links += side.from == from && side.to == to && closes == closing ? 1 : 0;
        }
        if (links == wanted) continue;
        found.push_back(fmt::format("The ring that ends with building {} has {} links {} building {}, not {}.",
                                    item(scenario.buildings, ring.back()).id, links, closing ? "back from" : "on to",
                                    item(scenario.buildings, to).id, wanted));
    }
}

/// The usable segments at each place.
using SegmentsAt = std::vector<std::vector<SegmentIndex>>;

SegmentsAt segments_at(const Scenario& scenario) {
    SegmentsAt at(scenario.places.size());
    for (std::size_t s = 0; s < scenario.segments.size(); ++s) {
        const auto index = static_cast<SegmentIndex>(s);
        if (opened_way(scenario, {index, 0}).method == nullptr) continue;
        at[static_cast<std::size_t>(scenario.segments[s].from)].push_back(index);
        at[static_cast<std::size_t>(scenario.segments[s].to)].push_back(index);
    }
    return at;
}

/// Places joined to the hub on the map without one segment.
std::vector<bool> joined_on_map(const Scenario& scenario, const SegmentsAt& at, SegmentIndex without) {
    std::vector<bool> joined(scenario.places.size(), false);
    joined[static_cast<std::size_t>(scenario.hub.place)] = true;
    std::vector<PlaceIndex> waiting = {scenario.hub.place};
    while (!waiting.empty()) {
        const PlaceIndex place = waiting.back();
        waiting.pop_back();
        for (const SegmentIndex index : item(at, place)) {
            const Segment& segment = item(scenario.segments, index);
            const PlaceIndex to = segment.from == place ? segment.to : segment.from;
            if (index == without || joined[static_cast<std::size_t>(to)]) continue;
            joined[static_cast<std::size_t>(to)] = true;
            waiting.push_back(to);
        }
    }
    return joined;
}

/// Buildings that the sides left whole join to the hub.
std::set<BuildingIndex> joined_by_links(const std::vector<Side>& sides, const std::set<int>& cut) {
    std::set<BuildingIndex> joined = {-1};
    for (bool again = true; again;) {
        again = false;
        for (const Side& side : sides) {
            if (cut.contains(side.cable) || joined.contains(side.from) == joined.contains(side.to)) continue;
            joined.insert(side.from);
            joined.insert(side.to);
            again = true;
        }
    }
    return joined;
}

/// Cuts each segment in turn, in the plan and on the map.
void check_cuts(const Scenario& scenario, const Plan& plan, Sentences& found) {
    std::map<SegmentIndex, std::set<int>> cables;
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        for (const Step& step : plan.cables[c].steps)
            cables[step.segment].insert(static_cast<int>(c));
    }
    const std::vector<Side> sides = sides_of(plan);
    const SegmentsAt at = segments_at(scenario);
    std::map<std::set<int>, std::set<BuildingIndex>> left;  // many segments in a row carry the same cables
    for (const auto& [segment, cut] : cables) {
        const auto [entry, fresh] = left.try_emplace(cut);
        if (fresh) entry->second = joined_by_links(sides, cut);
        const std::set<BuildingIndex>& joined = entry->second;
        if (joined.size() == scenario.buildings.size() + 1) continue;
        const std::vector<bool> on_map = joined_on_map(scenario, at, segment);
        for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
            const Building& building = scenario.buildings[b];
            const bool way_left = on_map[static_cast<std::size_t>(building.place)];
            if (joined.contains(static_cast<BuildingIndex>(b)) || !way_left) continue;
            found.push_back(fmt::format("A cut of segment {} takes down building {}, which the map gives another way.",
                                        item(scenario.segments, segment).id, building.id));
        }
    }
}

}  // namespace

Sentences ring_violations(const Scenario& scenario, const Plan& plan) {
    if (plan.layout != LayoutKind::ring) return {};
    Sentences found;
    std::size_t closings = 0;
    for (const PlannedCable& cable : plan.cables)
        closings += cable.role == CableRole::closing ? 1 : 0;
    for (const auto& ring : plan.chains)
        check_ring(scenario, plan, ring, found);
    if (closings < plan.chains.size()) found.emplace_back("There is not a closing cable for each ring.");
    check_cuts(scenario, plan, found);
    return found;
}

}  // namespace spadework::verification
