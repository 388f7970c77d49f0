#include "costing/line.hpp"
#include "costing/lines.hpp"
#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

void add_trench(const Scenario& scenario, const Step& step, std::vector<CostLine>& lines) {
    const Segment& segment = scenario.segments[static_cast<std::size_t>(step.segment)];
    const Way way = ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)];
    const OpeningMethod& method = *way.method;
    const Cause cause{CauseKind::segment, segment.id};
    // The method's own id says it all where the way is an existing duct or a pole line.
    const std::string item = way.ground == "existing duct" || way.ground == "pole line" ? "use " + way.ground
                                                                                        : method.id + ", " + way.ground;
    CostLine opening = line_of_length(Category::groundworks, item, segment.length,
                                      groundworks_per_metre(method, scenario.labour), cause, scenario.feet);
    opening.labour = WorkTime::along(segment.length, method.labour_hours_per_metre);
    if (opening.labour > WorkTime()) opening.trade = Trade::groundworks;
    lines.push_back(std::move(opening));
    add_unless_empty(line_of_sum(Category::groundworks, "set-up: " + item, method.set_up, cause), lines);
    for (const FixedCharge& charge : segment.charges) {
        lines.push_back(line_of_sum(Category::crossings_and_permits, charge.what, charge.amount, cause));
    }
}

}  // namespace

void add_trench_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines) {
    for (const Step& step : plan.trenches)
        add_trench(scenario, step, lines);
}

}  // namespace spadework
