#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include "comparison/verification_parts.hpp"

namespace spadework::verification {

namespace {

using Millimetres = std::map<std::string, std::int64_t>;

Millimetres millimetres_of(const std::map<std::string, Length>& lengths) {
    Millimetres result;
    for (const auto& [name, length] : lengths)
        result[name] = length.millimetres();
    return result;
}

void check_trench(const Scenario& scenario, const LayoutResult& result, Sentences& found) {
    std::int64_t dug = 0;
    std::int64_t reused = 0;
    Millimetres by_ground;
    for (const Step& step : result.plan->trenches) {
        const OpenedWay way = opened_way(scenario, step);
        const std::int64_t length = item(scenario.segments, step.segment).length.millimetres();
        (way.dug ? dug : reused) += length;
        by_ground[way.ground] += length;
    }
    if (dug != result.trench.millimetres() || reused != result.reused.millimetres()) {
        found.push_back(fmt::format("{} mm are dug and {} mm reused, not {} and {}.", dug, reused,
                                    result.trench.millimetres(), result.reused.millimetres()));
    }
    if (millimetres_of(result.trench_by_ground) != by_ground) {
        found.emplace_back("The metres by ground are not those of the segments.");
    }
    std::int64_t by_method = 0;
    for (const auto& [method, length] : result.trench_by_method)
        by_method += length.millimetres();
    if (by_method != dug + reused) found.emplace_back("The metres by method do not sum to the metres in use.");
}

void check_cables(const Scenario& scenario, const LayoutResult& result, Sentences& found) {
    using Three = std::array<std::int64_t, 3>;
    std::map<int, Three> measured;
    for (const PlannedCable& cable : result.plan->cables) {
        Three& sum = measured[item(scenario.catalogue.cables, cable.product).strands];
        sum[0] += cable.lengths.route.millimetres();
        sum[1] += cable.lengths.with_slack.millimetres();
        sum[2] += cable.lengths.ordered.millimetres();
    }
    std::map<int, Three> shown;
    for (const auto& [strands, metres] : result.cable_by_strands) {
        shown[strands] = {metres.route.millimetres(), metres.with_slack.millimetres(), metres.ordered.millimetres()};
    }
    if (shown != measured) found.emplace_back("The metres of cable by strand count are not those of the cables.");
}

/// Loss of all attenuators that one direction passes: that by its receiver, or on a single strand every one.
double attenuators_before(const Scenario& scenario, const PlannedLink& link, bool at_end) {
    double sum = 0;
    if (link.attenuator_at_end && (at_end || link.strands == 1))
        sum += item(scenario.catalogue.attenuators, *link.attenuator_at_end).loss_db;
    if (link.attenuator_at_start && (!at_end || link.strands == 1))
        sum += item(scenario.catalogue.attenuators, *link.attenuator_at_start).loss_db;
    return sum;
}

bool holds(const Scenario& scenario, const PlannedLink& link, const OpticalFigures& figures, const DirectionLoss& shown,
           double attenuators) {
    const LossRules& rules = scenario.rules.loss;
    const double kilometres = static_cast<double>(link.glass.millimetres()) / 1e6;
    const double fibre = kilometres * (figures.wavelength_nm >= 1530 ? rules.attenuation_1550_db_per_km
                                                                     : rules.attenuation_1310_db_per_km);
    const double loss = fibre + rules.mated_pair_db * link.mated_pairs + rules.splice_db * link.splices +
                        rules.spare_margin_db + attenuators;
    const double limit = figures.launch_min_dbm - figures.receive_min_dbm - figures.penalties_db;
    return std::abs(shown.loss_db - loss) <= 1e-6 && std::abs(shown.limit_db - limit) <= 1e-6 &&
           std::abs(shown.margin_db - (limit - loss)) <= 1e-6;
}

void check_budgets(const Scenario& scenario, const LayoutResult& result, Sentences& found) {
    if (result.link_budgets.size() != result.plan->links.size()) {
        found.emplace_back("There is not one loss budget for each link.");
        return;
    }
    double worst = 0;
    for (std::size_t i = 0; i < result.link_budgets.size(); ++i) {
        const LinkBudget& budget = result.link_budgets[i];
        const PlannedLink& link = result.plan->links[i];
        const OpticProduct& optic = item(scenario.catalogue.optics, link.optic);
        const double at_end = attenuators_before(scenario, link, true);
        const double at_start = attenuators_before(scenario, link, false);
        if (budget.link != static_cast<int>(i) ||
            !holds(scenario, link, optic.to_building, budget.to_building, at_end) ||
            !holds(scenario, link, optic.to_hub, budget.to_hub, at_start)) {
            found.push_back(fmt::format("The loss budget of link {} of building {} does not add up.", link.number,
                                        item(scenario.buildings, link.building).id));
        }
        const double margin = std::min(budget.to_building.margin_db, budget.to_hub.margin_db);
        worst = i == 0 ? margin : std::min(worst, margin);
    }
    const bool has_links = !result.plan->links.empty();
    if (has_links != result.worst_margin_db.has_value() ||
        (has_links && std::abs(worst - *result.worst_margin_db) > 1e-9)) {
        found.emplace_back("The worst margin is not that of any link's budget.");
    }
}

/// Buildings that no chain of links, followed either way, joins to the hub when the given cables are cut.
std::set<BuildingIndex> cut_off(const Scenario& scenario, const Plan& plan, const std::set<int>& cut) {
    std::set<BuildingIndex> lost;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b)
        lost.insert(static_cast<BuildingIndex>(b));
    for (bool again = true; again;) {
        again = false;
        for (const PlannedLink& link : plan.links) {
            const bool begins_lit = !link.from || !lost.contains(*link.from);
            const bool ends_lit = !lost.contains(link.building);
            const bool whole =
                std::none_of(link.cables.begin(), link.cables.end(), [&](int cable) { return cut.contains(cable); });
            if (!whole) continue;
            if (begins_lit && lost.erase(link.building) > 0) again = true;
            if (ends_lit && link.from && lost.erase(*link.from) > 0) again = true;
        }
    }
    return lost;
}

/// No segment takes down more buildings than the worst cut names, and the one it names takes down those.
void check_cut(const Scenario& scenario, const LayoutResult& result, Sentences& found) {
    const Plan& plan = *result.plan;
    std::map<SegmentIndex, std::set<int>> cables;
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        for (const Step& step : plan.cables[c].steps)
            cables[step.segment].insert(static_cast<int>(c));
    }
    std::set<std::set<int>> cuts;  // many segments in a row carry the same cables
    for (const auto& [segment, cut] : cables)
        cuts.insert(cut);
    std::set<std::set<BuildingIndex>> worst;
    std::size_t most = 0;
    for (const std::set<int>& cut : cuts) {
        const std::set<BuildingIndex> lost = cut_off(scenario, plan, cut);
        if (lost.size() > most) worst.clear();
        most = std::max(most, lost.size());
        if (lost.size() == most) worst.insert(lost);
    }
    const std::set<BuildingIndex> named(result.worst_cut.lost.begin(), result.worst_cut.lost.end());
    if (named.size() == result.worst_cut.lost.size() && (most == 0 ? named.empty() : worst.contains(named))) return;
    found.push_back(fmt::format("The worst cut names {} buildings; the worst there is takes down {}.",
                                result.worst_cut.lost.size(), most));
}

}  // namespace

Sentences measure_violations(const Scenario& scenario, const LayoutResult& result) {
    Sentences found;
    check_trench(scenario, result, found);
    check_cables(scenario, result, found);
    check_budgets(scenario, result, found);
    check_cut(scenario, result, found);
    if (std::any_of(result.findings.begin(), result.findings.end(),
                    [](const Finding& finding) { return finding.severity == FindingSeverity::error; })) {
        found.emplace_back("A feasible result has an error among its findings.");
    }
    return found;
}

}  // namespace spadework::verification
