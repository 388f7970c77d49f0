#include <algorithm>
#include <map>
#include <set>

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

}  // namespace

SingleCut worst_cut(const Scenario& scenario, const Plan& plan) {
    Dependence dependence(plan);
    std::map<SegmentIndex, std::vector<BuildingIndex>> lost_by;
    for (const BuildingIndex building : buildings_in_order(plan)) {
        for (const SegmentIndex segment : dependence.of(building))
            lost_by[segment].push_back(building);
    }
    SingleCut worst;
    for (auto& [segment, lost] : lost_by) {
        if (lost.size() <= worst.lost.size()) continue;
        worst.what = "segment " + scenario.segments[static_cast<std::size_t>(segment)].id;
        worst.lost = lost;
    }
    std::sort(worst.lost.begin(), worst.lost.end());
    return worst;
}

}  // namespace spadework
