
#include <fmt/format.h>

#include "checks/finding_makers.hpp"

namespace spadework {

namespace {

/// What all links of a building ask for together, Mbit/s.
double demand_of(const Building& building) {
    double megabits = 0;
    for (const LinkDemand& demand : building.links)
        megabits += static_cast<double>(demand.rate.megabits()) * demand.count;
    return megabits;
}

/// What all links of the hop that ends at a building carry together, Mbit/s. A ring at work rests one of its hops, so
/// what closes it does not count.
double carried_to(const Plan& plan, BuildingIndex building) {
    const auto closes = [&](const PlannedLink& link) {
        return !link.cables.empty() &&
               plan.cables[static_cast<std::size_t>(link.cables.front())].role == CableRole::closing;
    };
    double megabits = 0;
    for (const PlannedLink& link : plan.links) {
        if (link.building == building && !closes(link)) megabits += static_cast<double>(link.rate.megabits());
    }
    return megabits;
}

void check_chain(const Scenario& scenario, const Plan& plan, const std::vector<BuildingIndex>& chain,
                 Findings& findings) {
    const auto length = static_cast<int>(chain.size());
    const char* kind = plan.layout == LayoutKind::ring ? "ring" : "chain";
    const std::string where =
        std::string(kind) + " to " + scenario.buildings[static_cast<std::size_t>(chain.back())].id;
    if (length > scenario.rules.hop_limit) {
        findings.push_back(
            {"hop-limit", FindingSeverity::error, where,
             fmt::format("{} buildings in one {}, the rules allow {}", length, kind, scenario.rules.hop_limit),
             static_cast<double>(length), static_cast<double>(scenario.rules.hop_limit), "buildings"});
    }
    double demand = 0;
    for (const BuildingIndex building : chain)
        demand += demand_of(scenario.buildings[static_cast<std::size_t>(building)]);
    const double carried = carried_to(plan, chain.front());
    if (demand > carried) {
        findings.push_back({"shared-rate", FindingSeverity::warning, where,
                            fmt::format("{} buildings ask for {:.0f} Mbit/s and share {:.0f} Mbit/s of the first hop",
                                        length, demand, carried),
                            demand, carried, "Mbit/s"});
    }
}

}  // namespace

void check_chains(const Scenario& scenario, const Plan& plan, Findings& findings) {
    for (const auto& chain : plan.chains) {
        if (!chain.empty()) check_chain(scenario, plan, chain, findings);
    }
}

}  // namespace spadework
