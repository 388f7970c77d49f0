#include "comparison/verification.hpp"

#include "comparison/verification_parts.hpp"
#include "strand_map/strand_map_check.hpp"

namespace spadework {

namespace {

void append(std::vector<std::string>& all, std::vector<std::string> some) {
    all.insert(all.end(), some.begin(), some.end());
}

}  // namespace

std::vector<std::string> violations(const Scenario& scenario, const LayoutResult& result) {
    namespace parts = verification;
    if (!result.plan) {
        if (result.reason.empty()) return {"The layout has no plan and no reason why."};
        return {};
    }
    const Plan& plan = *result.plan;
    std::vector<std::string> found = parts::reference_violations(scenario, plan);
    if (plan.layout != result.layout) found.emplace_back("The plan is of another layout than the result.");
    if (!found.empty()) return found;
    append(found, parts::route_violations(scenario, plan));
    append(found, parts::ground_violations(scenario, plan));
    append(found, parts::strand_violations(scenario, plan));
    append(found, parts::link_violations(scenario, plan));
    append(found, parts::ring_violations(scenario, plan));
    append(found, parts::gear_violations(scenario, plan));
    append(found, parts::cost_violations(scenario, result));
    append(found, parts::measure_violations(scenario, result));
    if (found.empty()) append(found, strand_map_violations(scenario, plan, result.strand_map));
    return found;
}

}  // namespace spadework
