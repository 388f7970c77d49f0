#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "checks/checks.hpp"

namespace spadework {

namespace {

/// The segments each link of a building depends on, its own glass and, in a chain, that of the buildings before it.
class Dependence {
public:
    explicit Dependence(const Plan& plan) : plan_(plan) {
        for (const PlannedLink& link : plan.links)
            links_of_[link.building].push_back(&link);
    }

    /// Segments whose loss takes the building down: those on all of its links.
    std::set<SegmentIndex> of(BuildingIndex building) {
        const auto known = segments_.find(building);
        if (known != segments_.end()) return known->second;
        return segments_[building] = found_for(building);
    }

private:
    std::set<SegmentIndex> found_for(BuildingIndex building) {
        std::set<SegmentIndex> common;
        bool first = true;
        for (const PlannedLink* link : links_of_[building]) {
            const std::set<SegmentIndex> here = under(*link);
            if (first) {
                common = here;
            } else {
                std::erase_if(common, [&](SegmentIndex segment) { return !here.contains(segment); });
            }
            first = false;
        }
        return common;
    }

    std::set<SegmentIndex> under(const PlannedLink& link) {
        std::set<SegmentIndex> segments;
        for (const int cable : link.cables) {
            for (const Step& step : plan_.cables[static_cast<std::size_t>(cable)].steps)
                segments.insert(step.segment);
        }
        if (!link.from) return segments;
        const auto before = segments_.find(*link.from);
        if (before != segments_.end()) segments.insert(before->second.begin(), before->second.end());
        return segments;
    }

    const Plan& plan_;
    std::map<BuildingIndex, std::vector<const PlannedLink*>> links_of_;
    std::map<BuildingIndex, std::set<SegmentIndex>> segments_;
};

/// Every building with a link once: chains first, each in order from the hub, so that a building's predecessor comes
/// before it; then those outside chains.
std::vector<BuildingIndex> buildings_in_order(const Plan& plan) {
    std::vector<BuildingIndex> order;
    std::set<BuildingIndex> seen;
    const auto add = [&](BuildingIndex building) {
        if (seen.insert(building).second) order.push_back(building);
    };
    for (const auto& chain : plan.chains) {
        for (const BuildingIndex building : chain)
            add(building);
    }
    for (const PlannedLink& link : plan.links)
        add(link.building);
    return order;
}

using LostBySegment = std::map<SegmentIndex, std::vector<BuildingIndex>>;

/// For each segment, the buildings whose every link depends on it.
LostBySegment lost_by_dependence(const Plan& plan) {
    Dependence dependence(plan);
    LostBySegment lost;
    for (const BuildingIndex building : buildings_in_order(plan)) {
        for (const SegmentIndex segment : dependence.of(building))
            lost[segment].push_back(building);
    }
    return lost;
}

/// The segments that all links of one hop of a ring lie in. The hop comes to `to` from the building before it or, where
/// it closes the ring, from the hub.
std::set<SegmentIndex> under_hop(const Plan& plan, std::optional<BuildingIndex> from, BuildingIndex to, bool closing) {
    std::optional<std::set<SegmentIndex>> common;
    for (const PlannedLink& link : plan.links) {
        if (link.building != to || link.from != from || link.cables.empty()) continue;
        const PlannedCable& cable = plan.cables[static_cast<std::size_t>(link.cables.front())];
        if ((cable.role == CableRole::closing) != closing) continue;
        std::set<SegmentIndex> here;
        for (const Step& step : cable.steps)
            here.insert(step.segment);
        if (common) std::erase_if(here, [&](SegmentIndex segment) { return !common->contains(segment); });
        common = std::move(here);
    }
    return common.value_or(std::set<SegmentIndex>());
}

/// For each segment that several hops of a ring pass, the buildings between the first of them and the last: no side of
/// the ring leads to them when it is cut.
LostBySegment lost_in_rings(const Plan& plan) {
    LostBySegment lost;
    for (const auto& ring : plan.chains) {
        std::map<SegmentIndex, std::pair<std::size_t, std::size_t>> passes;
        for (std::size_t hop = 0; hop <= ring.size(); ++hop) {
            const bool closing = hop == ring.size();
            const auto from = hop == 0 || closing ? std::nullopt : std::optional(ring[hop - 1]);
            for (const SegmentIndex segment : under_hop(plan, from, closing ? ring.back() : ring[hop], closing))
                passes.try_emplace(segment, hop, hop).first->second.second = hop;
        }
        for (const auto& [segment, hops] : passes) {
            for (std::size_t i = hops.first; i < hops.second; ++i)
                lost[segment].push_back(ring[i]);
        }
    }
    return lost;
}

}  // namespace

SingleCut worst_cut(const Scenario& scenario, const Plan& plan) {
    const LostBySegment lost_by = plan.layout == LayoutKind::ring ? lost_in_rings(plan) : lost_by_dependence(plan);
    SingleCut worst;
    for (const auto& [segment, lost] : lost_by) {
        if (lost.size() <= worst.lost.size()) continue;
        worst.what = "segment " + scenario.segments[static_cast<std::size_t>(segment)].id;
        worst.lost = lost;
    }
    std::sort(worst.lost.begin(), worst.lost.end());
    return worst;
}

}  // namespace spadework
