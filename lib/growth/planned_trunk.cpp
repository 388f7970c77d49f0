#include "growth/planned_trunk.hpp"

#include <map>

#include "layout/design.hpp"

namespace spadework {

namespace {

int handholes_passed(const Scenario& scenario, const PlannedCable& cable) {
    int handholes = 0;
    PlaceIndex at = cable.from;
    for (const Step& step : cable.steps) {
        const Segment& segment = scenario.segments[static_cast<std::size_t>(step.segment)];
        at = segment.from == at ? segment.to : segment.from;
        if (at != cable.to && scenario.places[static_cast<std::size_t>(at)].kind == PlaceKind::handhole) ++handholes;
    }
    return handholes;
}

bool one_serves_all(const Scenario& scenario, const Plan& plan) {
    return plan.enclosures.size() == 1 && plan.enclosures.front().serves.size() == scenario.buildings.size() &&
           !plan.enclosures.front().trunks.empty();
}

TrunkRun run_of_cable(const Scenario& scenario, const Plan& plan, int number) {
    std::map<Step, int> cables;
    for (const PlannedCable& cable : plan.cables) {
        for (const Step& step : cable.steps)
            ++cables[step];
    }
    const PlannedCable& trunk = plan.cables[static_cast<std::size_t>(number)];
    std::vector<TrunkPart> parts;
    for (const Step& step : trunk.steps)
        parts.push_back({step.segment, step.way, cables[step]});
    return trunk_run(scenario, trunk.to, parts, handholes_passed(scenario, trunk));
}

}  // namespace

std::optional<TrunkRun> run_to_enclosure(const Scenario& scenario, const Plan& plan, std::size_t enclosure) {
    const std::vector<int>& trunks = plan.enclosures[enclosure].trunks;
    if (trunks.size() != 1) return std::nullopt;
    return run_of_cable(scenario, plan, trunks.front());
}

std::optional<TrunkRun> run_of_trunk(const Scenario& scenario, const Plan& plan) {
    if (!one_serves_all(scenario, plan)) return std::nullopt;
    return run_of_cable(scenario, plan, plan.enclosures.front().trunks.front());
}

TrunkRun trunk_to_study(const Scenario& scenario, const Comparison& comparison) {
    for (const LayoutResult& result : comparison.layouts) {
        if (!result.plan) continue;
        if (auto run = run_of_trunk(scenario, *result.plan)) return *std::move(run);
    }
    return metre_of_trunk(scenario);
}

TrunkRun trunk_to_study(const Scenario& scenario) {
    DesignLimits limits;
    limits.target_gap = 1;
    const Design found = design(LayoutKind::trunk_one, scenario, limits);
    if (!found.plan) return metre_of_trunk(scenario);
    return run_of_trunk(scenario, *found.plan).value_or(metre_of_trunk(scenario));
}

}  // namespace spadework
