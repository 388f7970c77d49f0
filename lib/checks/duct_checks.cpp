#include <map>
#include <vector>

#include <fmt/format.h>

#include "checks/finding_makers.hpp"
#include "rates/duct_fill.hpp"
#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

/// The outer diameters of the cables that a plan draws through each existing duct.
std::map<Step, std::vector<double>> diameters_in_ducts(const Scenario& scenario, const Plan& plan) {
    std::map<Step, std::vector<double>> diameters;
    for (const PlannedCable& cable : plan.cables) {
        const double diameter = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)].diameter_mm;
        for (const Step& step : cable.steps) {
            if (!scenario.segments[static_cast<std::size_t>(step.segment)].duct_room) continue;
            const auto ways = ways_of(scenario, step.segment);
            if (ways[static_cast<std::size_t>(step.way)].room >= 0) diameters[step].push_back(diameter);
        }
    }
    return diameters;
}

void check_fill(const Scenario& scenario, const Segment& segment, const std::vector<double>& planned,
                Findings& findings) {
    const DuctBore& bore = *segment.duct_bore;
    std::vector<double> all = bore.cable_diameters_mm;
    all.insert(all.end(), planned.begin(), planned.end());
    const std::string where = "segment " + segment.id;
    const double fill = 100 * duct_fill(bore.inner_diameter_mm, all);
    const double limit = fill_limit(all.size(), scenario.rules.duct_fill).percent();
    const bool within = is_within_fill(bore.inner_diameter_mm, all, scenario.rules.duct_fill);
    findings.push_back(
        {"duct-fill", within ? FindingSeverity::note : FindingSeverity::error, where,
         fmt::format("{} cable{} fill {:.1f} % of the existing duct of {:.1f} mm, {} % is the limit for so many; NEC "
                     "Chapter 9 Table 1 as good practice, which does not bind for fibre without power conductors",
                     all.size(), all.size() == 1 ? "" : "s", fill, bore.inner_diameter_mm, limit),
         fill, limit, "%"});
    const double ratio = jam_ratio(bore.inner_diameter_mm, all);
    if (ratio < least_jam_ratio || ratio > most_jam_ratio) return;
    findings.push_back(
        {"duct-jam", FindingSeverity::warning, where,
         fmt::format("the existing duct is {:.2f} times as wide as its three cables: from {:.1f} to "
                     "{:.1f} times they may wedge in a bend (NEC Chapter 9 Table 1, informational note 2)",
                     ratio, least_jam_ratio, most_jam_ratio),
         ratio, most_jam_ratio, "times"});
}

}  // namespace

void check_ducts(const Scenario& scenario, const Plan& plan, Findings& findings) {
    for (const auto& [step, diameters] : diameters_in_ducts(scenario, plan)) {
        const Segment& segment = scenario.segments[static_cast<std::size_t>(step.segment)];
        const auto count = static_cast<int>(diameters.size());
        const int room = segment.duct_room.value_or(0);
        if (count > room) {
            findings.push_back({"duct-full", FindingSeverity::error, "segment " + segment.id,
                                fmt::format("{} cables are planned in an existing duct with room for {}", count, room),
                                static_cast<double>(count), static_cast<double>(room), "cables"});
        }
        if (segment.duct_bore) check_fill(scenario, segment, diameters, findings);
    }
}

}  // namespace spadework
