#include "study/served.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "comparison/metres.hpp"
#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

bool is_own(const PlannedCable& cable, BuildingIndex building) {
    return cable.role != CableRole::trunk && cable.building == building;
}

/// The first of the building's cables from the hub's side; a plan has one for each building.
const PlannedCable& own_cable(const Plan& plan, BuildingIndex building) {
    return *std::find_if(plan.cables.begin(), plan.cables.end(), [building](const PlannedCable& cable) {
        const bool serves =
            cable.role == CableRole::home_run || cable.role == CableRole::drop || cable.role == CableRole::hop;
        return serves && is_own(cable, building);
    });
}

/// Segments that cables other than the building's own run along.
std::set<SegmentIndex> segments_of_others(const Plan& plan, BuildingIndex building) {
    std::set<SegmentIndex> used;
    for (const PlannedCable& cable : plan.cables) {
        if (is_own(cable, building)) continue;
        for (const Step& step : cable.steps)
            used.insert(step.segment);
    }
    return used;
}

std::vector<int> ways_off_each_place(const Scenario& scenario) {
    std::vector<int> degree(scenario.places.size(), 0);
    for (const Segment& segment : scenario.segments) {
        if (!segment.ban.empty()) continue;
        ++degree[static_cast<std::size_t>(segment.from)];
        ++degree[static_cast<std::size_t>(segment.to)];
    }
    return degree;
}

/// Whether two segments meet where nothing turns off.
bool run_on(const Segment& a, const Segment& b, const std::vector<int>& degree) {
    for (const PlaceIndex place : {a.from, a.to}) {
        if ((place == b.from || place == b.to) && degree[static_cast<std::size_t>(place)] == 2) return true;
    }
    return false;
}

}  // namespace

Service service_of(const Plan& plan, BuildingIndex building) {
    const PlannedCable& cable = own_cable(plan, building);
    Service service;
    service.route = cable.lengths.route;
    if (cable.role == CableRole::drop) {
        service.enclosure = plan.enclosures[static_cast<std::size_t>(*cable.enclosure)].place;
    }
    for (const std::vector<BuildingIndex>& chain : plan.chains) {
        const auto at = std::find(chain.begin(), chain.end(), building);
        if (at == chain.end()) continue;
        if (at != chain.begin()) service.building = *(at - 1);
        if (at + 1 != chain.end()) service.next = *(at + 1);
    }
    return service;
}

OwnAndShared trench_along(const Scenario& scenario, const Plan& plan, BuildingIndex building) {
    std::map<Step, bool> shared;  // For each step of the building's own cables.
    for (const PlannedCable& cable : plan.cables) {
        if (!is_own(cable, building)) continue;
        for (const Step& step : cable.steps)
            shared[step] = false;
    }
    for (const PlannedCable& cable : plan.cables) {
        if (is_own(cable, building)) continue;
        for (const Step& step : cable.steps) {
            if (const auto found = shared.find(step); found != shared.end()) found->second = true;
        }
    }
    OwnAndShared metres;
    for (const auto& [step, with_others] : shared) {
        if (!is_dug(ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)].method->kind)) continue;
        (with_others ? metres.shared : metres.own) += scenario.segments[static_cast<std::size_t>(step.segment)].length;
    }
    return metres;
}

std::vector<SegmentIndex> segments_alone(const Plan& plan, BuildingIndex building) {
    const std::set<SegmentIndex> others = segments_of_others(plan, building);
    std::vector<SegmentIndex> alone;
    for (const Step& step : own_cable(plan, building).steps) {
        if (!others.contains(step.segment)) alone.push_back(step.segment);
    }
    return alone;
}

std::vector<SegmentIndex> one_of_each_stretch(const Scenario& scenario, const std::vector<SegmentIndex>& segments) {
    const std::vector<int> degree = ways_off_each_place(scenario);
    std::vector<SegmentIndex> chosen;
    for (std::size_t i = 0; i < segments.size(); ++i) {
        const Segment& here = scenario.segments[static_cast<std::size_t>(segments[i])];
        const bool goes_on = i + 1 < segments.size() &&
                             run_on(here, scenario.segments[static_cast<std::size_t>(segments[i + 1])], degree);
        if (!goes_on) chosen.push_back(segments[i]);
    }
    return chosen;
}

}  // namespace spadework
