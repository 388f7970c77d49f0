#include "layout/service_figures.hpp"

#include <algorithm>

#include "layout/cable_choice.hpp"
#include "rates/gear_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// Adds one building's cable ends, links and gear; false when it cannot be served at all.
bool add_building(const Scenario& scenario, BuildingIndex index, const CostScale& scale, const ShortestWays& from_hub,
                  ServiceFigures& figures) {
    const Building& building = scenario.buildings[static_cast<std::size_t>(index)];
    const auto distance = from_hub.length[static_cast<std::size_t>(building.place)];
    if (!distance) {
        figures.impossible = "building " + building.id + ": no way to the hub without banned segments";
        return false;
    }
    const LeastCost least = least_building_cost(scenario, index, *distance);
    if (!least.impossible.empty()) {
        figures.impossible = least.impossible;
        return false;
    }
    const auto cable =
        cable_figures(scenario, scale, drop_need(strands_in_use(building, scenario.rules), scenario.rules));
    if (!cable) {
        figures.impossible = "the catalogue has no cable";
        return false;
    }
    figures.cables.push_back(*cable);
    figures.constant += least.cost + cable->ends - cable->rounding;
    return true;
}

int all_links(const Scenario& scenario) {
    int links = 0;
    for (const Building& building : scenario.buildings)
        links += link_count(building);
    return links;
}

bool same_figures(const graph::FeederSize& a, const graph::FeederSize& b) {
    return a.weight == b.weight && a.multiplicity == b.multiplicity && a.fixed == b.fixed;
}

}  // namespace

std::optional<CableFigures> cable_figures(const Scenario& scenario, const CostScale& scale, const StrandNeed& need) {
    const auto least = least_cable(scenario, need.total(), need.in_use);
    if (!least) return std::nullopt;
    return CableFigures{scale.units_per_millimetre(least->per_route_metre),
                        least->pieces,
                        least->ends,
                        least->rounding,
                        least->per_route_metre,
                        least->of_product};
}

ServiceFigures service_figures(const Scenario& scenario, const CostScale& scale, const ShortestWays& from_hub) {
    ServiceFigures figures;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        if (!add_building(scenario, static_cast<BuildingIndex>(b), scale, from_hub, figures)) return figures;
    }
    const LeastCost hub = least_hub_cost(scenario, all_links(scenario), fastest_rate(scenario));
    figures.impossible = hub.impossible;
    figures.constant += hub.cost + scenario.labour.mobilisation;
    return figures;
}

Money beyond_service_figures(const Scenario& scenario, BuildingIndex building, Length route) {
    const int in_use = strands_in_use(scenario.buildings[static_cast<std::size_t>(building)], scenario.rules);
    return least_beyond_figures(scenario, drop_need(in_use, scenario.rules).total(), route);
}

Money beyond_trunk_figures(const Scenario& scenario, int strands_in_use, Length route) {
    return least_beyond_figures(scenario, trunk_need(strands_in_use, scenario.rules, scenario.growth).total(), route);
}

Money least_trunk_end_work(const Scenario& scenario, int strands_in_use) {
    const Labour& labour = scenario.labour;
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    const Money one_end = scenario.rules.termination == Termination::factory
                              ? amount(labour.installer_rate, labour.plug_time * strands_in_use)
                              : amount(splicing.rate_per_hour, splicing.time_per_splice * strands_in_use) +
                                    amount(splicing.pigtail_price, std::int64_t{strands_in_use});
    return std::max(Money(), one_end * 2 - Money::from_minor(4));
}

Money trunk_rounding(const Scenario& scenario, int strands_in_use) {
    const StrandNeed need = trunk_need(strands_in_use, scenario.rules, scenario.growth);
    const auto least = least_cable(scenario, need.total(), 0);
    return least ? least->rounding * scenario.rules.most_enclosures : Money();
}

std::vector<graph::FeederSize> trunk_sizes(const Scenario& scenario, const CostScale& scale, int most_in_use) {
    std::vector<graph::FeederSize> sizes;
    for (int in_use = 1; in_use <= most_in_use; ++in_use) {
        const StrandNeed need = trunk_need(in_use, scenario.rules, scenario.growth);
        const auto cable = cable_figures(scenario, scale, {0, need.total(), 0});
        const auto enclosures = cheapest_enclosures(scenario, need.total());
        if (!cable || !enclosures) break;
        const Money fixed = cable->ends + price_of_enclosures(scenario, *enclosures);
        const graph::FeederSize size{in_use, cable->weight, cable->multiplicity, scale.units(fixed)};
        if (!sizes.empty() && same_figures(sizes.back(), size)) {
            sizes.back().units = in_use;
        } else {
            sizes.push_back(size);
        }
    }
    return sizes;
}

std::vector<graph::Cost> beyond_trunk_sizes(const Scenario& scenario, const CostScale& scale,
                                            const std::vector<graph::FeederSize>& sizes, Length route) {
    std::vector<graph::Cost> beyond;
    std::int64_t fewest = 1;  // The fewer strands, the more products to choose from.
    for (const graph::FeederSize& size : sizes) {
        beyond.push_back(scale.units(beyond_trunk_figures(scenario, static_cast<int>(fewest), route)));
        fewest = size.units + 1;
    }
    return beyond;
}

}  // namespace spadework
