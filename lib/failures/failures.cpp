#include "failures/failures.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <tuple>

#include "failures/flood.hpp"
#include "failures/second_way.hpp"

namespace spadework {

namespace {

Failure failure_at(FailureKind kind, std::int32_t index, const FailureRate& rate) {
    Failure failure;
    failure.kind = kind;
    failure.index = index;
    failure.per_year = rate.per_year;
    failure.repair_hours = rate.repair_hours;
    return failure;
}

std::vector<BuildingIndex> all_buildings(const Scenario& scenario) {
    std::vector<BuildingIndex> all(scenario.buildings.size());
    std::iota(all.begin(), all.end(), 0);
    return all;
}

int cables_in(const Plan& plan, SegmentIndex segment) {
    return static_cast<int>(std::ranges::count_if(plan.cables, [&](const PlannedCable& cable) {
        return std::ranges::any_of(cable.steps, [&](const Step& step) { return step.segment == segment; });
    }));
}

void cut_segments(const Scenario& scenario, const Plan& plan, const Flood& flood, std::vector<Failure>& failures) {
    SegmentIndex before = -1;
    for (const Step& step : plan.trenches) {
        if (step.segment == before) continue;
        before = step.segment;
        Failure cut = failure_at(FailureKind::segment_cut, step.segment, scenario.rules.failures.cut_per_km);
        cut.per_year *= scenario.segments[static_cast<std::size_t>(step.segment)].length.metres() / 1000;
        cut.lost = flood.lost(flood.links_in(step.segment), -1);
        cut.cables = cables_in(plan, step.segment);
        failures.push_back(std::move(cut));
    }
}

void fail_enclosures(const Scenario& scenario, const Plan& plan, const Flood& flood, std::vector<Failure>& failures) {
    for (std::size_t e = 0; e < plan.enclosures.size(); ++e) {
        const auto number = static_cast<int>(e);
        failures.push_back(failure_at(FailureKind::enclosure, number, scenario.rules.failures.enclosure));
        failures.back().lost = flood.lost(flood.links_through(number), -1);
    }
}

void fail_gear(const Scenario& scenario, const Plan& plan, const Flood& flood, std::vector<Failure>& failures) {
    for (const PlannedGear& gear : plan.building_gear) {
        failures.push_back(
            failure_at(FailureKind::building_gear, gear.building, scenario.rules.failures.building_gear));
        failures.back().lost = flood.lost({}, gear.building);
    }
}

void add_minutes(FailureStudy& study, std::size_t buildings) {
    study.outage_minutes.assign(buildings, 0);
    for (const Failure& failure : study.failures) {
        for (const BuildingIndex building : failure.lost)
            study.outage_minutes[static_cast<std::size_t>(building)] += failure.minutes_per_year();
    }
    if (buildings == 0) return;
    study.worst_minutes = *std::ranges::max_element(study.outage_minutes);
    study.mean_minutes =
        std::accumulate(study.outage_minutes.begin(), study.outage_minutes.end(), 0.0) / static_cast<double>(buildings);
}

void find_second_way(const Scenario& scenario, const Plan& plan, FailureStudy& study) {
    const auto worst = std::ranges::find(study.failures, FailureKind::segment_cut, &Failure::kind);
    if (worst == study.failures.end() || worst->lost.size() < 2) return;
    study.second_way = second_way(scenario, plan, worst->index);
}

}  // namespace

const char* name_of(FailureKind kind) {
    constexpr std::array names = {"hub gear", "segment cut", "enclosure", "building gear"};
    return names[static_cast<std::size_t>(kind)];
}

FailureStudy study_failures(const Scenario& scenario, const Plan& plan) {
    const Flood flood(scenario, plan);
    FailureStudy study;
    study.failures.push_back(failure_at(FailureKind::hub, 0, scenario.rules.failures.hub));
    study.failures.back().lost = all_buildings(scenario);
    cut_segments(scenario, plan, flood, study.failures);
    fail_enclosures(scenario, plan, flood, study.failures);
    fail_gear(scenario, plan, flood, study.failures);
    add_minutes(study, scenario.buildings.size());
    std::ranges::sort(study.failures, [](const Failure& a, const Failure& b) {
        return std::tuple(b.lost.size(), a.kind, a.index) < std::tuple(a.lost.size(), b.kind, b.index);
    });
    find_second_way(scenario, plan, study);
    return study;
}

}  // namespace spadework

template class std::vector<spadework::Failure>;
