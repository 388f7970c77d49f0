#include <fmt/format.h>

#include "checks/finding_makers.hpp"

namespace spadework {

namespace {

void check_cable(const Scenario& scenario, const PlannedCable& cable, Findings& findings) {
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
    const std::string where = "cable " + cable.id;
    if (cable.need.total() > product.strands) {
        findings.push_back(
            {"strands-short", FindingSeverity::error, where,
             fmt::format("{} strands are needed, {} has {}", cable.need.total(), product.id, product.strands),
             static_cast<double>(cable.need.total()), static_cast<double>(product.strands), "strands"});
    }
    if (cable.lengths.ordered < cable.lengths.with_slack) {
        findings.push_back({"ordered-short", FindingSeverity::error, where,
                            fmt::format("{:.1f} m is ordered where {:.1f} m is needed", cable.lengths.ordered.metres(),
                                        cable.lengths.with_slack.metres()),
                            cable.lengths.ordered.metres(), cable.lengths.with_slack.metres(), "m"});
    }
    if (cable.lengths.joints > 0) {
        findings.push_back({"joints", FindingSeverity::note, where,
                            fmt::format("longer than one factory length of {:.0f} m: joined {} times on the way",
                                        product.longest.metres(), cable.lengths.joints),
                            static_cast<double>(cable.lengths.joints), 0, "joints"});
    }
}

void check_enclosure(const Scenario& scenario, const PlannedEnclosure& enclosure, Findings& findings) {
    const Place& place = scenario.places[static_cast<std::size_t>(enclosure.place)];
    int adapters = 0;
    for (const Pieces& pieces : enclosure.products) {
        adapters += pieces.count * scenario.catalogue.enclosures[static_cast<std::size_t>(pieces.product)].adapters;
    }
    const std::string where = "enclosure at " + place.id;
    if (adapters < enclosure.need.total()) {
        findings.push_back({"enclosure-adapters", FindingSeverity::error, where,
                            fmt::format("{} strands land on {} adapters", enclosure.need.total(), adapters),
                            static_cast<double>(enclosure.need.total()), static_cast<double>(adapters), "adapters"});
    }
    if (!place.enclosure_allowed) {
        findings.push_back({"enclosure-place", FindingSeverity::error, where,
                            "no enclosure may stand here: " + place.enclosure_reason, 1, 0, "enclosures"});
    }
}

}  // namespace

void check_cables(const Scenario& scenario, const Plan& plan, Findings& findings) {
    for (const PlannedCable& cable : plan.cables)
        check_cable(scenario, cable, findings);
    for (const PlannedEnclosure& enclosure : plan.enclosures)
        check_enclosure(scenario, enclosure, findings);
}

}  // namespace spadework
