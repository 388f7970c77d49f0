#include "growth/judging.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "extension/extension.hpp"
#include "growth/planned_trunk.hpp"
#include "growth/spare_ducts.hpp"
#include "rates/cable_rates.hpp"
#include "rates/quote_rates.hpp"

namespace spadework {

namespace {

/// Expected amounts are real numbers; far below what would overflow.
Money nearest(double minor) {
    constexpr double largest = 4e17;
    return Money::from_minor(std::llround(std::clamp(minor, -largest, largest)));
}

double discount(const Scenario& scenario, int year) {
    return std::pow(1 + scenario.growth.discount_rate.fraction(), -year);
}

FutureDrop drop_of(const Scenario& scenario, const Plan& plan, int index) {
    const FutureBuilding& future = scenario.growth.buildings[static_cast<std::size_t>(index)];
    FutureDrop drop;
    drop.future = index;
    drop.left_out = why_left_out(scenario, future);
    if (!drop.left_out.empty()) return drop;
    Scenario grown = scenario;
    grown.buildings.push_back(building_to_come(future, commonest_rate(scenario)));
    const auto cost = cost_of_adding(grown, plan);
    if (!cost) {
        drop.left_out = "it cannot be connected";
        return drop;
    }
    drop.cost = cost->direct;
    drop.expected =
        nearest(future.chance * discount(scenario, future.year) * static_cast<double>(cost->direct.minor()));
    drop.through_trunk = cost->through_trunk;
    drop.opened = cost->opened;
    drop.from = cost->from;
    return drop;
}

int links_of(const std::vector<Building>& buildings) {
    int links = 0;
    for (const Building& building : buildings)
        links += link_count(building);
    return links;
}

/// The site as the trunk to one enclosure sees it: the buildings that it serves, those that would be connected there,
/// and its share by links of the growth that has no name.
Scenario seen_by_trunk(const Scenario& scenario, const GrowthPlan& figures, const PlannedEnclosure& enclosure) {
    Scenario seen = scenario;
    seen.growth.buildings.clear();
    for (const FutureDrop& drop : figures.future) {
        if (drop.through_trunk && (drop.from == enclosure.place || !drop.left_out.empty()))
            seen.growth.buildings.push_back(scenario.growth.buildings[static_cast<std::size_t>(drop.future)]);
    }
    if (enclosure.serves.size() == scenario.buildings.size()) return seen;
    seen.buildings.clear();
    for (const BuildingIndex building : enclosure.serves)
        seen.buildings.push_back(scenario.buildings[static_cast<std::size_t>(building)]);
    const int all = links_of(scenario.buildings);
    if (all > 0) seen.growth.unnamed_links_per_year *= static_cast<double>(links_of(seen.buildings)) / all;
    return seen;
}

/// The plan with another product for the one trunk to an enclosure; all else as it was.
void set_trunk_product(const Scenario& scenario, std::size_t enclosure, int product, Plan& plan) {
    const int c = plan.enclosures[enclosure].trunks.front();
    PlannedCable& trunk = plan.cables[static_cast<std::size_t>(c)];
    if (trunk.product == product) return;
    const CableLengths before = trunk.lengths;
    const TrunkRun run = *run_to_enclosure(scenario, plan, enclosure);
    trunk.product = product;
    trunk.lengths = cable_lengths(scenario.catalogue.cables[static_cast<std::size_t>(product)], run.length,
                                  run.handholes, scenario.rules);
    for (PlannedLink& link : plan.links) {
        if (std::find(link.cables.begin(), link.cables.end(), c) == link.cables.end()) continue;
        link.splices += trunk.lengths.joints - before.joints;
        link.glass += glass_of(trunk.lengths, scenario.rules) - glass_of(before, scenario.rules);
    }
}

/// Chooses the trunk to one enclosure; what is expected for further ones, in minor units.
double choose_trunk(const Scenario& scenario, const PlannedEnclosure& enclosure, const TrunkRun& run, Trunks trunks,
                    const GrowthPlan& figures, TrunkChoice& choice) {
    const StrandStudy study = study_strands(seen_by_trunk(scenario, figures, enclosure), run);
    const auto now = std::find_if(study.sizes.begin(), study.sizes.end(),
                                  [&](const CableSizeOption& size) { return size.product == choice.product; });
    const CableSizeOption* best = &*now;
    for (const CableSizeOption& size : study.sizes) {
        if (trunks == Trunks::best && size.meets_policy && size.best_sum() < best->best_sum()) best = &size;
    }
    choice.product = best->product;
    choice.chance_enough = best->chance_enough;
    choice.spare_duct = trunks == Trunks::best && best->duct_pays();
    return choice.spare_duct ? best->later_with_duct.expected : best->later.expected;
}

}  // namespace

BitRate commonest_rate(const Scenario& scenario) {
    std::map<BitRate, int> links;
    for (const Building& building : scenario.buildings) {
        for (const LinkDemand& demand : building.links)
            links[demand.rate] += demand.count;
    }
    const auto most =
        std::max_element(links.begin(), links.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == links.end() ? BitRate::from_megabits(1000) : most->first;
}

std::string why_left_out(const Scenario& scenario, const FutureBuilding& future) {
    if (future.year > scenario.growth.horizon_years) return "due beyond the horizon";
    if (future.chance <= 0) return "it has no chance";
    if (!future.place) return "its place is not known";
    return "";
}

Building building_to_come(const FutureBuilding& future, BitRate rate) {
    Building building;
    building.id = future.id;
    building.name = future.name;
    building.place = *future.place;
    building.links = {{rate, future.links}};
    return building;
}

JudgedPlan judged(const Scenario& scenario, const Plan& plan, Trunks trunks) {
    JudgedPlan result{{}, plan};
    GrowthPlan& figures = result.figures;
    for (std::size_t f = 0; f < scenario.growth.buildings.size(); ++f)
        figures.future.push_back(drop_of(scenario, plan, static_cast<int>(f)));
    for (const FutureDrop& drop : figures.future)
        figures.drops += drop.expected;
    double later = 0;
    for (std::size_t e = 0; e < plan.enclosures.size(); ++e) {
        const PlannedEnclosure& enclosure = plan.enclosures[e];
        TrunkChoice choice;
        choice.place = enclosure.place;
        choice.product = plan.cables[static_cast<std::size_t>(enclosure.trunks.front())].product;
        const auto run = run_to_enclosure(scenario, plan, e);
        // Trunks of several cables stay as they are.
        if (run) later += choose_trunk(scenario, enclosure, *run, trunks, figures, choice);
        figures.choices.push_back(choice);
        if (run) set_trunk_product(scenario, e, choice.product, result.plan);
    }
    figures.trunks = nearest(later);
    figures.now = price_with_spare_ducts(scenario, result.plan, figures.choices).total();
    figures.later = quote_for(figures.drops + figures.trunks, scenario.rules).total();
    return result;
}

}  // namespace spadework
