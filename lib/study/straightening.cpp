#include "study/straightening.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "open_ground/straight_lines.hpp"
#include "scenario/lookup.hpp"

namespace spadework {

namespace {

constexpr double share_of_time = 0.25;
/// Where a trench runs is settled long before the last cent is.
constexpr double good_enough_gap = 0.01;

Comparison first_round(const Scenario& scenario, const StudyOptions& options) {
    StudyOptions quick = options;
    quick.kept = {};  // Only routes matter here.
    quick.seconds = options.seconds * share_of_time;
    quick.target_gap = good_enough_gap;
    return compare_layouts(scenario, quick).comparison;
}

/// The lines that any of the plans wants, by places; of several for the same places the first.
std::vector<open_ground::StraightLine> lines_for(const Scenario& scenario, const Comparison& comparison) {
    std::map<std::pair<PlaceIndex, PlaceIndex>, open_ground::StraightLine> lines;
    for (const LayoutResult& result : comparison.layouts) {
        if (!result.plan) continue;
        std::vector<SegmentIndex> used;
        for (const Step& step : result.plan->trenches)
            used.push_back(step.segment);
        for (const open_ground::StraightLine& line : open_ground::straight_lines(scenario, used))
            lines.try_emplace({line.from, line.to}, line);
    }
    std::vector<open_ground::StraightLine> list;
    for (const auto& [places, line] : lines)
        list.push_back(line);
    return list;
}

/// The same steps on a map with more segments.
void move_steps(std::vector<Step>& steps, const Scenario& from, const Scenario& to) {
    for (Step& step : steps)
        step.segment = find_segment(to, from.segments[static_cast<std::size_t>(step.segment)].id).value_or(0);
}

Design moved(const LayoutResult& result, const Scenario& from, const Scenario& to) {
    Design design;
    design.layout = result.layout;
    design.plan = result.plan;
    design.notes = result.notes;
    move_steps(design.plan->trenches, from, to);
    std::sort(design.plan->trenches.begin(), design.plan->trenches.end());
    for (PlannedCable& cable : design.plan->cables)
        move_steps(cable.steps, from, to);
    return design;
}

}  // namespace

Straightened straighten(const Scenario& scenario, const StudyOptions& options) {
    if (scenario.open_ground.lines == 0) return {scenario, {}};
    const Comparison first = first_round(scenario, options);
    Straightened straightened{open_ground::with_straight_lines(scenario, lines_for(scenario, first)), {}};
    for (const LayoutResult& result : first.layouts) {
        if (result.plan) straightened.known.push_back(moved(result, scenario, straightened.scenario));
    }
    return straightened;
}

}  // namespace spadework
