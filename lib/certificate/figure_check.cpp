#include "certificate/figure_check.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "certificate/edge_check.hpp"

namespace spadework::certificate {

namespace {

/// A building's own cable each, then the trunk.
std::vector<CableCharge> cables_of(const Scenario& scenario, const FanOutFigures& figures,
                                   const RoutesEvidence& evidence) {
    std::vector<CableCharge> cables;
    for (std::size_t d = 0; d < evidence.demands.size(); ++d) {
        const std::string name =
            d < scenario.buildings.size() ? "the cable of building " + scenario.buildings[d].id : "the trunk";
        cables.push_back({name, evidence.demands[d].weight, evidence.demands[d].multiplicity, figures.cables[d]});
    }
    return cables;
}

/// How a root charges more than plans that fan out there pay beside their routes; "" when it does not.
std::string root_fault(const Scenario& scenario, const FanOutFigures& figures, const RoutesEvidence& evidence,
                       const graph::RootOption& root) {
    const auto place = std::lower_bound(figures.places.begin(), figures.places.end(), root.at);
    const std::string& id = scenario.places[static_cast<std::size_t>(root.at)].id;
    if (place == figures.places.end() || *place != root.at) {
        return fmt::format("cables cannot fan out from place {}", id);
    }
    const Money beside = figures.beside[static_cast<std::size_t>(place - figures.places.begin())];
    const Wide units = evidence.units_a_minor;
    if (evidence.constant.minor() * units + root.cost <= beside.minor() * units) return "";
    return fmt::format(
        "the constant of {} and the cost of {} units at place {} are above the {} that plans pay beside their routes",
        evidence.constant.minor(), root.cost, id, beside.minor());
}

}  // namespace

std::vector<std::string> figure_faults(const Scenario& scenario, const FanOutFigures& figures,
                                       const RoutesEvidence& evidence) {
    if (evidence.demands.size() != figures.cables.size()) {
        return {fmt::format("the evidence has {} demands, the layout has {} cables", evidence.demands.size(),
                            figures.cables.size())};
    }
    std::vector<std::string> faults =
        edge_faults(scenario, evidence.edges, evidence.units_a_minor, cables_of(scenario, figures, evidence));
    for (const graph::RootOption& root : evidence.roots) {
        const std::string fault = root_fault(scenario, figures, evidence, root);
        if (!fault.empty() && faults.size() < most_faults) faults.push_back(fault);
    }
    return faults;
}

}  // namespace spadework::certificate
