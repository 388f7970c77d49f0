#include <algorithm>
#include <tuple>

#include "checks/checks.hpp"
#include "checks/finding_makers.hpp"

namespace spadework {

namespace {

void sort_by_severity(Findings& findings) {
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        if (a.severity != b.severity) return a.severity > b.severity;
        return std::tie(a.kind, a.where) < std::tie(b.kind, b.where);
    });
}

}  // namespace

std::string at_building(const Scenario& scenario, BuildingIndex building) {
    return "building " + scenario.buildings[static_cast<std::size_t>(building)].id;
}

Findings check(const Scenario& scenario, const Plan& plan) {
    Findings findings;
    check_links(scenario, plan, findings);
    check_gear(scenario, plan, findings);
    check_cables(scenario, plan, findings);
    check_ducts(scenario, plan, findings);
    check_chains(scenario, plan, findings);
    sort_by_severity(findings);
    return findings;
}

}  // namespace spadework
