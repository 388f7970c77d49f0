#include <algorithm>

#include "catalogue/catalogue.hpp"
#include "certificate/edge_check.hpp"
#include "certificate/least_figures.hpp"
#include "certificate/link_figures.hpp"
#include "certificate/trunk_figures.hpp"
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

/// What cables that begin or end at an enclosure are charged too much for coils: half a coil each.
Money charged_too_much(const Scenario& scenario, const std::vector<LeastCable>& cables) {
    Money sum;
    for (const LeastCable& cable : cables) {
        const Wide exact = static_cast<Wide>(cable.thousandths_a_metre) * half_coil(scenario);
        sum += Money::from_minor(static_cast<std::int64_t>((exact + 999'999) / 1'000'000));
    }
    return sum;
}

/// One more place, where plans pay so much beside their routes and what each cable costs beyond its figures.
void add_place(PlaceIndex place, Money cost, const std::vector<Money>& beyond, FanOutFigures& figures) {
    std::vector<Money> counted;
    for (std::size_t c = 0; c < beyond.size(); ++c) {
        cost += beyond[c];
        counted.push_back(Money::from_minor(figures.cables[c].ends) + beyond[c]);
    }
    figures.places.push_back(place);
    figures.beside.push_back(cost);
    figures.counted.push_back(std::move(counted));
}

}  // namespace

std::optional<ServedFigures> served_figures(const Scenario& scenario) {
    const auto hub = least_hub(scenario);
    if (!hub) return std::nullopt;
    ServedFigures all;
    all.from_hub = shortest_millimetres(scenario, scenario.hub.place);
    all.cost = *hub + scenario.labour.mobilisation;
    for (const Building& building : scenario.buildings) {
        const auto distance = at(all.from_hub, building.place);
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

// Both ends are worked on in one go for all strands of a trunk, so a building's share may be up to two minor units less
// at each.
Money trunk_end_work(const Scenario& scenario, const Building& building) {
    const Labour& labour = scenario.labour;
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    const int in_use = strands_in_use(building, scenario.rules);
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

std::optional<TrunkFigures> trunk_figures(const Scenario& scenario, int in_use) {
    const int strands = trunk_need(in_use, scenario.rules, scenario.growth).total();
    const auto cable = least_cable(scenario, strands, 0);
    const auto enclosures = cheapest_enclosures(scenario, strands);
    if (!cable || !enclosures) return std::nullopt;
    const Money ends = Money::from_minor(cable->ends + cable->end_work);
    return TrunkFigures{*cable, price_of_enclosures(scenario, *enclosures) + ends};
}

std::optional<FanOutFigures> home_run_figures(const Scenario& scenario) {
    const auto all = served_figures(scenario);
    if (!all) return std::nullopt;
    FanOutFigures figures{all->cables, {}, {}, {}};
    std::vector<Money> beyond;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const std::int64_t route = *at(all->from_hub, scenario.buildings[b].place);
        beyond.push_back(Money::from_minor(beyond_least(scenario, all->cables[b], route)));
    }
    add_place(scenario.hub.place, all->cost, beyond, figures);
    return figures;
}

std::optional<FanOutFigures> one_trunk_figures(const Scenario& scenario) {
    const auto all = served_figures(scenario);
    const auto trunk = trunk_figures(scenario, all_strands(scenario));
    if (!all || !trunk) return std::nullopt;
    Money cost = all->cost + trunk->fixed - Money::from_minor(trunk->cable.rounding);
    for (const Building& building : scenario.buildings)
        cost += trunk_end_work(scenario, building);
    FanOutFigures figures{all->cables, {}, {}, {}};
    figures.cables.push_back(trunk->cable);
    figures.half_coils = charged_too_much(scenario, figures.cables);
    std::vector<Distances> from_buildings;
    for (const Building& building : scenario.buildings)
        from_buildings.push_back(shortest_millimetres(scenario, building.place));
    for (std::size_t p = 0; p < scenario.places.size(); ++p) {
        if (!scenario.places[p].enclosure_allowed || !all->from_hub[p]) continue;
        std::vector<Money> beyond;
        for (std::size_t c = 0; c < figures.cables.size(); ++c) {
            const std::int64_t route = c < from_buildings.size() ? *from_buildings[c][p] : *all->from_hub[p];
            beyond.push_back(Money::from_minor(beyond_least(scenario, figures.cables[c], route)));
        }
        add_place(static_cast<PlaceIndex>(p), cost + scenario.places[p].enclosure_extra, beyond, figures);
    }
    return figures;
}

}  // namespace spadework::certificate
