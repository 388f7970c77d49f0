#include "report/assumptions.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

std::string with_unit(Length length, const Scenario& scenario) {
    return plain(length, scenario) + " " + length_unit(scenario);
}

std::string termination(const Scenario& scenario) {
    if (scenario.rules.termination == Termination::factory) {
        return "Cables come with connectors fitted at the factory, in the length steps of the catalogue; light runs "
               "through all that is ordered.";
    }
    return "Cables are bought by the metre, cut to what they need, and their ends spliced on site.";
}

std::string strand_use(const Scenario& scenario) {
    if (scenario.rules.either_strand_use) {
        return "All links of a plan use two strands, or all use one: whichever makes the plan cheaper. Bounds hold for "
               "both.";
    }
    if (scenario.rules.strand_use == StrandUse::duplex) return "A link uses two strands, one for each direction.";
    return "A link uses one strand for both directions.";
}

std::string losses(const LossRules& loss) {
    return fmt::format(
        "Loss allowances: {} dB a kilometre below 1530 nm and {} dB from there up, {} dB a mated pair of connectors, "
        "{} dB "
        "a splice, {} dB kept in hand on every link.",
        plain(loss.attenuation_1310_db_per_km, 3), plain(loss.attenuation_1550_db_per_km, 3),
        plain(loss.mated_pair_db, 3), plain(loss.splice_db, 3), plain(loss.spare_margin_db, 3));
}

std::string slack(const Scenario& scenario) {
    const SlackRules& rules = scenario.rules.slack;
    return fmt::format(
        "Cable beyond the route on the map: {} of rise and {} of coil at each end, {} coiled in each handhole passed, "
        "then "
        "{} % on the whole.",
        with_unit(rules.rise_per_end, scenario), with_unit(rules.coil_per_end, scenario),
        with_unit(rules.coil_per_handhole, scenario), plain(rules.ordering_allowance.percent(), 3));
}

std::string spares(const Scenario& scenario) {
    const SpareRules& spare = scenario.rules.spare;
    return fmt::format(
        "Spare strands: in a trunk {} % of those in use and no fewer than {}, and {} % more for growth; in any other "
        "cable "
        "{}.",
        plain(spare.trunk_spare.percent(), 3), spare.trunk_spare_least, plain(scenario.growth.headroom.percent(), 3),
        spare.drop_spare_least);
}

std::string lengths(const Scenario& scenario) {
    const std::string from = scenario.coordinates == CoordinateSystem::wgs84_degrees
                                 ? "Segment lengths not given are geodesic lengths on the WGS 84 ellipsoid"
                                 : "Segment lengths not given are measured along the lines of the plan";
    return from + "; slopes are not added.";
}

std::string open_ground(const Scenario& scenario) {
    const LaidOutGround& laid = scenario.open_ground;
    const auto areas = std::count_if(scenario.areas.begin(), scenario.areas.end(),
                                     [](const Area& area) { return area.use == AreaUse::open_ground; });
    return fmt::format(
        "Open ground ({} area{}) was laid out as a lattice with points every {} and ways in {} directions, with lines "
        "between what sees each other: {} points and {} segments in all, {} of these straight lines drawn to "
        "straighten "
        "plans. A way over the lattice is at most {:.2f} % longer than the straight line. Bounds speak of this lattice "
        "and these lines, not of every line imaginable.",
        areas, areas == 1 ? "" : "s", with_unit(laid.spacing, scenario), laid.directions, laid.points, laid.lines,
        laid.straight.size(), 100 * laid.longest_detour);
}

std::string barred(const std::vector<BarredSegment>& barred) {
    constexpr std::size_t most_named = 10;
    std::string names;
    for (std::size_t i = 0; i < std::min(most_named, barred.size()); ++i)
        names += (i == 0 ? "" : ", ") + shown(barred[i].id) + " (" + shown(barred[i].reason) + ")";
    if (barred.size() > most_named) names += fmt::format(" and {} more", barred.size() - most_named);
    return fmt::format("{} segment{} of the map may not be used: {}.", barred.size(), barred.size() == 1 ? "" : "s",
                       names);
}

/// What areas did to the map.
std::vector<std::string> areas(const Scenario& scenario) {
    std::vector<std::string> lines;
    if (scenario.open_ground.directions > 0) lines.push_back(open_ground(scenario));
    if (!scenario.open_ground.barred.empty()) lines.push_back(barred(scenario.open_ground.barred));
    return lines;
}

}  // namespace

std::vector<std::string> assumptions(const Scenario& scenario) {
    const Rules& rules = scenario.rules;
    std::vector<std::string> lines = {
        "Prices, grounds, lengths and permissions are as the site file states them; nothing was checked on the ground.",
        lengths(scenario),
        termination(scenario),
        strand_use(scenario),
        losses(rules.loss),
        slack(scenario),
        spares(scenario),
        fmt::format("At most {} enclosure{}, and at most {} buildings in one chain or ring.", rules.most_enclosures,
                    rules.most_enclosures == 1 ? "" : "s", rules.hop_limit),
        fmt::format("Contingency is {} % of the direct cost; tax is {} % of both.",
                    plain(rules.contingency.percent(), 3), plain(rules.tax.percent(), 3)),
        "The lower bound is proved: no plan of that layout on this map, with this catalogue and these rules, costs "
        "less. "
        "The gap is the total less the bound, in percent of the total.",
    };
    const std::vector<std::string> of_areas = areas(scenario);
    lines.insert(lines.begin() + 2, of_areas.begin(), of_areas.end());
    return lines;
}

}  // namespace spadework::report
