#include "layout/cut_trunk.hpp"

#include <algorithm>

#include "rates/cable_rates.hpp"

namespace spadework {

namespace {

const PlannedCable& cable_at(const Plan& plan, int cable) {
    return plan.cables[static_cast<std::size_t>(cable)];
}

}  // namespace

std::vector<int> parts_of_trunk(const Plan& plan, int cable) {
    std::vector<int> parts = {cable};
    while (cable_at(plan, parts.back()).spliced_to)
        parts.push_back(*cable_at(plan, parts.back()).spliced_to);
    std::reverse(parts.begin(), parts.end());
    return parts;
}

std::optional<int> part_behind(const Plan& plan, int cable) {
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        if (plan.cables[c].spliced_to == cable) return static_cast<int>(c);
    }
    return std::nullopt;
}

StrandNeed strands_ending(const Plan& plan, int cable) {
    StrandNeed need = cable_at(plan, cable).need;
    const auto behind = part_behind(plan, cable);
    if (!behind) return need;
    const StrandNeed& passing = cable_at(plan, *behind).need;
    return {std::max(0, need.in_use - passing.in_use), std::max(0, need.spare - passing.spare),
            std::max(0, need.headroom - passing.headroom)};
}

GlassPath path_through(const Scenario& scenario, const Plan& plan, const std::vector<int>& cables) {
    const int at_ends = scenario.rules.termination == Termination::spliced ? 1 : 0;
    GlassPath path;
    path.mated_pairs = 1;
    for (std::size_t i = 0; i < cables.size(); ++i) {
        const PlannedCable& cable = cable_at(plan, cables[i]);
        path.glass += glass_of(cable.lengths, scenario.rules);
        path.splices += cable.lengths.joints;
        const bool spliced_on = i > 0 && cable.spliced_to == cables[i - 1];
        path.splices += spliced_on ? 1 : at_ends;
        const bool goes_on = i + 1 < cables.size() && cable_at(plan, cables[i + 1]).spliced_to == cables[i];
        if (goes_on) continue;
        path.splices += part_behind(plan, cables[i]) ? 1 : at_ends;
        ++path.mated_pairs;
    }
    return path;
}

}  // namespace spadework
