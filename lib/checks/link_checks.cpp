#include <fmt/format.h>

#include "checks/checks.hpp"
#include "checks/finding_makers.hpp"
#include "rates/cord_rates.hpp"

namespace spadework {

namespace {

/// Room for the rounding of sums of decimal fractions, far below what any meter shows.
constexpr double rounding_db = 1e-9;

std::string where_of(const Scenario& scenario, const PlannedLink& link) {
    return fmt::format("{}, link {}", at_building(scenario, link.building), link.number);
}

void check_direction(const DirectionLoss& loss, const char* direction, const std::string& where, Findings& findings) {
    if (loss.margin_db < -rounding_db) {
        findings.push_back({"link-loss", FindingSeverity::error, where,
                            fmt::format("{} at {:.0f} nm the link may lose {:.2f} dB and loses up to {:.2f} dB",
                                        direction, loss.wavelength_nm, loss.limit_db, loss.loss_db),
                            loss.loss_db, loss.limit_db, "dB"});
    }
    if (loss.overload_excess_db > rounding_db) {
        findings.push_back({"link-overload", FindingSeverity::error, where,
                            fmt::format("{} the strongest signal is {:.2f} dB above what the receiver stands, and the "
                                        "catalogue has no attenuator that brings it inside both limits",
                                        direction, loss.overload_excess_db),
                            loss.overload_excess_db, 0, "dB"});
    }
}

void check_reach(const OpticProduct& optic, const PlannedLink& link, const std::string& where, Findings& findings) {
    const double metres = link.glass.metres();
    if (link.glass > optic.reach) {
        findings.push_back({"link-reach", FindingSeverity::error, where,
                            fmt::format("{:.0f} m of glass is beyond the {:.0f} m reach of {}", metres,
                                        optic.reach.metres(), optic.id),
                            metres, optic.reach.metres(), "m"});
    }
    if (link.glass < optic.least_length) {
        findings.push_back({"link-too-short", FindingSeverity::error, where,
                            fmt::format("{:.1f} m of glass is less than the {:.1f} m that {} needs", metres,
                                        optic.least_length.metres(), optic.id),
                            metres, optic.least_length.metres(), "m"});
    }
}

/// Which attenuators a link takes, for whoever plugs them.
void note_attenuators(const Scenario& scenario, const PlannedLink& link, const LinkBudget& budget,
                      const std::string& where, Findings& findings) {
    const auto note = [&](std::optional<int> attenuator, const std::string& at, const DirectionLoss& direction) {
        if (!attenuator) return;
        const AttenuatorProduct& product = scenario.catalogue.attenuators[static_cast<std::size_t>(*attenuator)];
        const double bare = direction.overload_excess_db + direction.attenuator_db;
        findings.push_back({"attenuator", FindingSeverity::note, where,
                            fmt::format("{} of {:.1f} dB goes in front of the receiver at {}: without it the strongest "
                                        "signal would be {:.2f} dB above what that stands",
                                        product.id, product.loss_db, at, bare),
                            bare, 0, "dB"});
    };
    const bool one_strand = link.strands == 1;
    const DirectionLoss& stronger =
        budget.to_hub.overload_excess_db > budget.to_building.overload_excess_db ? budget.to_hub : budget.to_building;
    note(link.attenuator_at_start, link.from ? at_building(scenario, *link.from) : "the hub",
         one_strand ? stronger : budget.to_hub);
    note(link.attenuator_at_end, at_building(scenario, link.building), one_strand ? stronger : budget.to_building);
}

void check_rate(const OpticProduct& optic, const PlannedLink& link, const std::string& where, Findings& findings) {
    if (optic.rate >= link.rate) return;
    findings.push_back({"link-rate", FindingSeverity::error, where,
                        fmt::format("{} runs {}, the link wants {}", optic.id, to_text(optic.rate), to_text(link.rate)),
                        static_cast<double>(optic.rate.megabits()), static_cast<double>(link.rate.megabits()),
                        "Mbit/s"});
}

}  // namespace

void check_links(const Scenario& scenario, const Plan& plan, Findings& findings) {
    bool cord_missing = false;
    for (const PlannedLink& link : plan.links) {
        const OpticProduct& optic = scenario.catalogue.optics[static_cast<std::size_t>(link.optic)];
        const LinkBudget budget = link_budget(scenario, link);
        const std::string where = where_of(scenario, link);
        check_direction(budget.to_building, "towards the building", where, findings);
        check_direction(budget.to_hub, "towards the hub", where, findings);
        check_reach(optic, link, where, findings);
        note_attenuators(scenario, link, budget, where, findings);
        check_rate(optic, link, where, findings);
        cord_missing = cord_missing || !cheapest_cord(scenario, link.strands);
    }
    if (!cord_missing) return;
    findings.push_back({"patch-cord", FindingSeverity::note, "catalogue",
                        "the catalogue has no patch cord for these links, so none is priced", 0, 1, "product"});
}

}  // namespace spadework
