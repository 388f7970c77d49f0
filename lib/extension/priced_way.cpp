#include "extension/priced_way.hpp"

#include <algorithm>
#include <utility>

#include "extension/extension_bill.hpp"

namespace spadework {

Pricing priced(const ExtensionTask& task, const RoutedExtension& routed) {
    ExtensionAssembly assembly = assemble(task, routed);
    if (!assembly.extended) return {std::nullopt, std::move(assembly.reason)};
    PricedWay way;
    way.bill = price_of_extension(task.scenario, *assembly.extended);
    way.total = way.bill.total();
    way.extended = *std::move(assembly.extended);
    way.routed = routed;
    return {std::move(way), ""};
}

std::vector<int> links_by_name(const Plan& built, const ExtendedPlan& extended) {
    std::vector<int> numbers;
    for (std::size_t l = 0; l < built.links.size(); ++l) {
        const auto same = [&](int other) {
            const PlannedLink& link = extended.plan.links[static_cast<std::size_t>(other)];
            return link.building == built.links[l].building && link.number == built.links[l].number;
        };
        if (std::any_of(extended.interrupted.begin(), extended.interrupted.end(), same))
            numbers.push_back(static_cast<int>(l));
    }
    return numbers;
}

std::string check_way(const Scenario& scenario, PricedWay& way) {
    way.findings = check(scenario, way.extended.plan);
    return has_errors(way.findings) ? way.findings.front().where + ": " + way.findings.front().what : "";
}

}  // namespace spadework
