#include "sheets/test_sheet.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "layout/cut_trunk.hpp"
#include "rates/link_loss.hpp"

namespace spadework {

namespace {

/// Fibre that shows less than this share of its allowance is shorter than planned, or is not the one meant.
constexpr double least_share_of_allowance = 0.5;

std::string place_in_words(const Scenario& scenario, const Plan& plan, const PlannedLink& link, PlaceIndex place) {
    const std::string& id = scenario.places[static_cast<std::size_t>(place)].id;
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        if (enclosure.place == place) return "enclosure at " + id;
    }
    for (const std::optional<BuildingIndex> building : {std::optional(link.building), link.from}) {
        if (!building) continue;
        const Building& there = scenario.buildings[static_cast<std::size_t>(*building)];
        if (there.place == place) return "building " + there.id;
    }
    return place == scenario.hub.place ? "hub" : id;
}

/// Where a cable's joints lie, from its own beginning. A part of a trunk that was cut is counted from the hub's end of
/// the whole, as its pieces were made.
std::vector<Length> joints_of(const Scenario& scenario, const Plan& plan, int c) {
    const PlannedCable& cable = plan.cables[static_cast<std::size_t>(c)];
    const Length longest = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)].longest;
    const Length glass = glass_of(cable.lengths, scenario.rules);
    Length before;
    int joints_before = 0;
    for (const int part : parts_of_trunk(plan, c)) {
        if (part == c) break;
        const CableLengths& lengths = plan.cables[static_cast<std::size_t>(part)].lengths;
        before += lengths.ordered;
        joints_before += lengths.joints;
    }
    std::vector<Length> joints;
    for (int joint = 1; joint <= cable.lengths.joints; ++joint) {
        const Length at = longest * (joints_before + joint) - before;
        joints.push_back(cable.spliced_to ? std::clamp(at, Length(), glass) : at);
    }
    return joints;
}

/// Connectors, end splices and joints of a link from its beginning.
std::vector<TraceEvent> events_of(const Scenario& scenario, const Plan& plan, const PlannedLink& link) {
    const bool spliced = scenario.rules.termination == Termination::spliced;
    std::vector<TraceEvent> events;
    Length at;
    for (std::size_t i = 0; i < link.cables.size(); ++i) {
        const int c = link.cables[i];
        const PlannedCable& cable = plan.cables[static_cast<std::size_t>(c)];
        const std::string begin = place_in_words(scenario, plan, link, cable.from);
        const bool goes_on_here = i > 0 && cable.spliced_to == link.cables[i - 1];
        if (!goes_on_here) events.push_back({"connector", begin, at});
        if (spliced || goes_on_here) events.push_back({"splice", begin, at});
        int number = 0;
        for (const Length joint : joints_of(scenario, plan, c))
            events.push_back({"splice", fmt::format("joint {} of {}", ++number, cable.id), at + joint});
        at += glass_of(cable.lengths, scenario.rules);
        const bool last = i + 1 == link.cables.size();
        const bool goes_on = !last && plan.cables[static_cast<std::size_t>(link.cables[i + 1])].spliced_to == c;
        if (!goes_on && (spliced || part_behind(plan, c)))
            events.push_back({"splice", place_in_words(scenario, plan, link, cable.to), at});
    }
    const PlannedCable& last = plan.cables[static_cast<std::size_t>(link.cables.back())];
    events.push_back({"connector", place_in_words(scenario, plan, link, last.to), at});
    return events;
}

LossLimit limit_at(const Scenario& scenario, const OpticalFigures& figures, const GlassPath& path,
                   double attenuator_db) {
    LossRules allowances = scenario.rules.loss;
    allowances.spare_margin_db = 0;
    LossLimit limit;
    limit.wavelength_nm = figures.wavelength_nm;
    limit.calculated_db = greatest_loss_db(path, figures.wavelength_nm, allowances);
    limit.optics_db = loss_limit_db(figures) - scenario.rules.loss.spare_margin_db - attenuator_db;
    limit.pass_db = std::min(limit.calculated_db, limit.optics_db);
    limit.least_db = least_share_of_allowance * least_loss_db(path, figures.wavelength_nm, allowances);
    return limit;
}

std::vector<LossLimit> limits_of(const Scenario& scenario, const PlannedLink& link, Length glass) {
    const OpticProduct& optic = scenario.catalogue.optics[static_cast<std::size_t>(link.optic)];
    const GlassPath path{glass, link.mated_pairs, link.splices};
    const Attenuation after =
        attenuation_of(scenario.catalogue, optic, link.attenuator_at_start, link.attenuator_at_end);
    if (optic.to_hub.wavelength_nm == optic.to_building.wavelength_nm)
        return {limit_at(scenario, optic.to_building, path, std::max(after.to_building_db, after.to_hub_db))};
    std::vector<LossLimit> limits = {limit_at(scenario, optic.to_building, path, after.to_building_db),
                                     limit_at(scenario, optic.to_hub, path, after.to_hub_db)};
    std::ranges::sort(limits, {}, &LossLimit::wavelength_nm);
    return limits;
}

std::vector<std::size_t> strands_of(const PlannedLink& link, int index, int leg, const StrandMap& map) {
    std::vector<std::size_t> strands;
    for (const int c : link.cables) {
        const auto carries = [&](const MappedStrand& strand) {
            return strand.cable == c && strand.link == index && strand.leg == leg;
        };
        const auto found = std::ranges::find_if(map, carries);
        if (found != map.end()) strands.push_back(static_cast<std::size_t>(found - map.begin()));
    }
    return strands;
}

}  // namespace

std::vector<StrandTest> test_sheet(const Scenario& scenario, const Plan& plan, const StrandMap& map) {
    std::vector<StrandTest> sheet;
    for (std::size_t l = 0; l < plan.links.size(); ++l) {
        const PlannedLink& link = plan.links[l];
        StrandTest test;
        test.link = static_cast<int>(l);
        test.glass = link.glass;
        test.limits = limits_of(scenario, link, test.glass);
        test.events = events_of(scenario, plan, link);
        for (test.leg = 1; test.leg <= link.strands; ++test.leg) {
            test.strands = strands_of(link, test.link, test.leg, map);
            sheet.push_back(test);
        }
    }
    return sheet;
}

}  // namespace spadework
