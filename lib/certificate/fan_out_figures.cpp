#include <algorithm>

#include "catalogue/catalogue.hpp"
#include "certificate/least_figures.hpp"
#include "certificate/link_figures.hpp"
#include "rates/gear_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

using Distances = std::vector<std::optional<std::int64_t>>;

std::optional<std::int64_t> at(const Distances& distances, PlaceIndex place) {
    return distances[static_cast<std::size_t>(place)];
}

/// Links and gear of a building.
std::optional<Money> least_building(const Scenario& scenario, const Building& building, std::int64_t millimetres) {
    Money cost;
    BitRate fastest;
    for (const LinkDemand& demand : building.links) {
        const auto link = least_link(scenario, demand.rate, millimetres);
        if (!link) return std::nullopt;
        cost += *link * demand.count;
        fastest = std::max(fastest, demand.rate);
    }
    const auto gear = cheapest_building_gear(scenario, building, {link_count(building), fastest});
    if (!gear) return std::nullopt;
    const auto& product = scenario.catalogue.building_gear[static_cast<std::size_t>(gear->product)];
    return cost + price_installed(product, gear->count, scenario.labour);
}

/// Switches at the hub for every link.
std::optional<Money> least_hub(const Scenario& scenario) {
    int links = 0;
    for (const Building& building : scenario.buildings)
        links += link_count(building);
    const auto gear = cheapest_hub_gear(scenario, links, fastest_rate(scenario));
    if (!gear) return std::nullopt;
    return price_of(scenario, *gear);
}

/// Each building's own cable, and what all plans pay wherever the cables come from.
struct Services {
    std::vector<LeastCable> cables;
    Money cost;
};

std::optional<Services> services(const Scenario& scenario, const Distances& from_hub) {
    const auto hub = least_hub(scenario);
    if (!hub) return std::nullopt;
    Services all;
    all.cost = *hub + scenario.labour.mobilisation;
    for (const Building& building : scenario.buildings) {
        const auto distance = at(from_hub, building.place);
        if (!distance) return std::nullopt;
        const auto own = least_building(scenario, building, *distance);
        const int in_use = strands_in_use(building, scenario.rules);
        const auto cable = least_cable(scenario, drop_need(in_use, scenario.rules).total(), in_use);
        if (!own || !cable) return std::nullopt;
        all.cables.push_back(*cable);
        all.cost += *own + Money::from_minor(cable->ends + cable->end_work - cable->rounding);
    }
    return all;
}

/// Work on a building's strands at both ends of a trunk. Both ends are worked on in one go there, so a building's share
/// may be up to two minor units less at each.
Money trunk_end_work(const Scenario& scenario, int in_use) {
    const Labour& labour = scenario.labour;
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    const Money one_end = scenario.rules.termination == Termination::factory
                              ? amount(labour.installer_rate, labour.plug_time * in_use)
                              : amount(splicing.rate_per_hour, splicing.time_per_splice * in_use) +
                                    amount(splicing.pigtail_price, std::int64_t{in_use});
    return std::max(Money(), one_end * 2 - Money::from_minor(4));
}

int all_strands(const Scenario& scenario) {
    int strands = 0;
    for (const Building& building : scenario.buildings)
        strands += strands_in_use(building, scenario.rules);
    return strands;
}

/// The trunk's ends, the enclosure, and the work on the strands that pass it.
std::optional<Money> trunk_cost(const Scenario& scenario, const LeastCable& trunk) {
    const auto enclosures = cheapest_enclosures(scenario, trunk.strands);
    if (!enclosures) return std::nullopt;
    Money cost = price_of_enclosures(scenario, *enclosures) + Money::from_minor(trunk.ends + trunk.end_work) -
                 Money::from_minor(trunk.rounding);
    for (const Building& building : scenario.buildings)
        cost += trunk_end_work(scenario, strands_in_use(building, scenario.rules));
    return cost;
}

}  // namespace

std::optional<FanOutFigures> home_run_figures(const Scenario& scenario) {
    const Distances from_hub = shortest_millimetres(scenario, scenario.hub.place);
    const auto all = services(scenario, from_hub);
    if (!all) return std::nullopt;
    Money beside = all->cost;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const std::int64_t route = *at(from_hub, scenario.buildings[b].place);
        beside += Money::from_minor(beyond_least(scenario, all->cables[b], route));
    }
    return FanOutFigures{all->cables, {scenario.hub.place}, {beside}};
}

std::optional<FanOutFigures> one_trunk_figures(const Scenario& scenario) {
    const Distances from_hub = shortest_millimetres(scenario, scenario.hub.place);
    const auto all = services(scenario, from_hub);
    const int strands = trunk_need(all_strands(scenario), scenario.rules, scenario.growth).total();
    const auto trunk = least_cable(scenario, strands, 0);
    if (!all || !trunk) return std::nullopt;
    const auto cost = trunk_cost(scenario, *trunk);
    if (!cost) return std::nullopt;
    FanOutFigures figures{all->cables, {}, {}};
    figures.cables.push_back(*trunk);
    for (std::size_t p = 0; p < scenario.places.size(); ++p) {
        if (!scenario.places[p].enclosure_allowed || !from_hub[p]) continue;
        figures.places.push_back(static_cast<PlaceIndex>(p));
        figures.beside.push_back(all->cost + *cost + scenario.places[p].enclosure_extra +
                                 Money::from_minor(beyond_least(scenario, *trunk, *from_hub[p])));
    }
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const Distances distances = shortest_millimetres(scenario, scenario.buildings[b].place);
        for (std::size_t i = 0; i < figures.places.size(); ++i) {
            const std::int64_t route = *at(distances, figures.places[i]);
            figures.beside[i] += Money::from_minor(beyond_least(scenario, all->cables[b], route));
        }
    }
    return figures;
}

}  // namespace spadework::certificate
