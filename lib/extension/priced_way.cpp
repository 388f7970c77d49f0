#include "extension/priced_way.hpp"

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

std::string check_way(const Scenario& scenario, PricedWay& way) {
    way.findings = check(scenario, way.extended.plan);
    return has_errors(way.findings) ? way.findings.front().where + ": " + way.findings.front().what : "";
}

}  // namespace spadework
