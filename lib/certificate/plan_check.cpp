#include <map>
#include <set>

#include <fmt/format.h>

#include "certificate/verification.hpp"
#include "comparison/comparison.hpp"
#include "comparison/verification.hpp"
#include "comparison/verification_parts.hpp"

namespace spadework::certificate {

namespace {

using Sentences = std::vector<std::string>;

/// Sums over a longer list of longer cables might not fit in 64 bits.
constexpr std::size_t most_steps = 1'000'000;

bool is_too_large(const Scenario& scenario, const Plan& plan) {
    std::size_t steps = plan.trenches.size();
    for (const PlannedCable& cable : plan.cables)
        steps += cable.steps.size();
    const std::size_t things = scenario.buildings.size() + scenario.places.size();
    return steps > most_steps || plan.cables.size() > 8 * things || plan.enclosures.size() > things;
}

/// The links of every building are numbered from 1.
Sentences number_faults(const Plan& plan) {
    std::map<BuildingIndex, std::set<int>> numbers;
    std::map<BuildingIndex, int> counts;
    for (const PlannedLink& link : plan.links) {
        numbers[link.building].insert(link.number);
        ++counts[link.building];
    }
    for (const auto& [building, known] : numbers) {
        const bool right = static_cast<int>(known.size()) == counts[building] && *known.begin() == 1 &&
                           *known.rbegin() == counts[building];
        if (!right) return {"The links of a building are not numbered from 1."};
    }
    return {};
}

/// What is wrong with the plan beside its price. Each part expects that those before it found nothing.
Sentences structure_faults(const Scenario& scenario, const Plan& plan) {
    namespace parts = verification;
    if (is_too_large(scenario, plan)) return {"The plan is larger than any plan for this site."};
    for (const auto& part : {parts::reference_violations, parts::route_violations, parts::strand_violations,
                             parts::link_violations, parts::gear_violations}) {
        Sentences found = part(scenario, plan);
        if (!found.empty()) return found;
    }
    return number_faults(plan);
}

/// A sentence as a part of another.
std::string part_of(const std::string& sentence) {
    return "plan: " + sentence;
}

}  // namespace

Sentences plan_faults(const Scenario& scenario, const Certificate& certificate, std::optional<Money>& total) {
    Sentences found = structure_faults(scenario, certificate.plan);
    if (found.empty()) {
        Design design;
        design.layout = certificate.layout;
        design.plan = certificate.plan;
        const LayoutResult result = assess(scenario, std::move(design));
        if (result.plan) {
            total = result.total;
            found = violations(scenario, result);
        } else {
            found.push_back(result.reason);
        }
    }
    Sentences faults;
    for (const std::string& sentence : found)
        faults.push_back(part_of(sentence));
    if (total && *total != certificate.total) {
        faults.push_back(
            fmt::format("the plan costs {}, not the {} that is claimed", total->minor(), certificate.total.minor()));
    }
    return faults;
}

}  // namespace spadework::certificate
