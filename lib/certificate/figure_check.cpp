#include "certificate/figure_check.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "certificate/edge_check.hpp"
#include "certificate/edge_distances.hpp"

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

/// What the cables' charges leave out of their ways from the root, at least, in solver units.
Wide left_out(const Scenario& scenario, const FanOutFigures& figures, const RoutesEvidence& evidence, PlaceIndex root,
              Coils coils) {
    const EdgeDistances paths(scenario, evidence.edges);
    Wide sum = 0;
    for (std::size_t d = 0; d < evidence.demands.size(); ++d) {
        const std::vector<Wide> left =
            left_on_edges(scenario, evidence,
                          {"", evidence.demands[d].weight, evidence.demands[d].multiplicity, figures.cables[d]}, coils);
        sum += paths.to(evidence.demands[d].at, {left, left})[static_cast<std::size_t>(root)].value_or(0);
    }
    return sum;
}

/// How a root charges more than plans that fan out there pay beside their routes; "" when it does not.
std::string root_fault(const Scenario& scenario, const FanOutFigures& figures, const RoutesEvidence& evidence,
                       const graph::RootOption& root, Coils coils) {
    const auto place = std::lower_bound(figures.places.begin(), figures.places.end(), root.at);
    const std::string& id = scenario.places[static_cast<std::size_t>(root.at)].id;
    if (place == figures.places.end() || *place != root.at) {
        return fmt::format("cables cannot fan out from place {}", id);
    }
    Money beside = figures.beside[static_cast<std::size_t>(place - figures.places.begin())];
    const bool coil = half_coils_by_place(scenario)[static_cast<std::size_t>(root.at)] > 0;
    if (coil && coils == Coils::charged) beside = beside - figures.half_coils;
    const Wide units = evidence.units_a_minor;
    const Wide over = evidence.constant.minor() * units + root.cost - beside.minor() * units;
    if (over <= 0 || over <= left_out(scenario, figures, evidence, root.at, coils)) return "";
    return fmt::format(
        "the constant of {} and the cost of {} units at place {} are above the {} that plans pay beside their routes",
        evidence.constant.minor(), root.cost, id, beside.minor());
}

std::vector<std::string> faults_with(const Scenario& scenario, const FanOutFigures& figures,
                                     const RoutesEvidence& evidence, Coils coils) {
    std::vector<std::string> faults =
        edge_faults(scenario, evidence.edges, evidence.units_a_minor, cables_of(scenario, figures, evidence), coils);
    for (const graph::RootOption& root : evidence.roots) {
        const std::string fault = root_fault(scenario, figures, evidence, root, coils);
        if (!fault.empty() && faults.size() < most_faults) faults.push_back(fault);
    }
    return faults;
}

}  // namespace

std::vector<std::string> figure_faults(const Scenario& scenario, const FanOutFigures& figures,
                                       const RoutesEvidence& evidence) {
    if (evidence.demands.size() != figures.cables.size()) {
        return {fmt::format("the evidence has {} demands, the layout has {} cables", evidence.demands.size(),
                            figures.cables.size())};
    }
    // The evidence may charge coils or leave them out; it does not say which, so the reading with fewer faults counts.
    const std::vector<std::string> charged = faults_with(scenario, figures, evidence, Coils::charged);
    if (charged.empty()) return {};
    const std::vector<std::string> without = faults_with(scenario, figures, evidence, Coils::not_charged);
    return charged.size() <= without.size() ? charged : without;
}

}  // namespace spadework::certificate
