#include "layout/least_costs.hpp"

#include <algorithm>

#include "layout/link_choice.hpp"
#include "rates/cable_rates.hpp"
#include "rates/cord_rates.hpp"
#include "rates/gear_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

LeastCost least_link_cost(const Scenario& scenario, const Building& building, BitRate rate, Length least_glass) {
    const auto optic = least_optic(scenario, rate, least_glass);
    if (!optic) {
        return {Money(), "building " + building.id + ": " + why_no_optic(scenario, rate, {least_glass, 2, 0})};
    }
    const int strands = strands_per_link(scenario.rules.strand_use);
    Money cost = amount(scenario.catalogue.optics[static_cast<std::size_t>(*optic)].price_per_end, std::int64_t{2});
    if (const auto cord = cheapest_cord(scenario, strands)) {
        cost += amount(scenario.catalogue.patch_cords[static_cast<std::size_t>(*cord)].price, std::int64_t{2});
    }
    return {cost + test_work(strands, scenario.labour).amount, ""};
}

LeastCost least_building_cost(const Scenario& scenario, BuildingIndex index, Length least_glass) {
    const Building& building = scenario.buildings[static_cast<std::size_t>(index)];
    Money cost;
    BitRate fastest;
    for (const LinkDemand& demand : building.links) {
        const LeastCost link = least_link_cost(scenario, building, demand.rate, least_glass);
        if (!link.impossible.empty()) return link;
        cost += link.cost * demand.count;
        fastest = std::max(fastest, demand.rate);
    }
    const auto gear = cheapest_building_gear(scenario, building, {link_count(building), fastest});
    if (!gear) {
        return {Money(),
                "building " + building.id + ": no gear in the catalogue has the ports, power and rate it needs"};
    }
    cost += price_installed(scenario.catalogue.building_gear[static_cast<std::size_t>(gear->product)], gear->count,
                            scenario.labour);
    return {cost, ""};
}

LeastCost least_hub_cost(const Scenario& scenario, int ports, BitRate rate) {
    const auto gear = cheapest_hub_gear(scenario, ports, rate);
    if (!gear) return {Money(), why_no_hub_gear(scenario, ports, rate)};
    return {price_of(scenario, *gear), ""};
}

BitRate fastest_rate(const Scenario& scenario) {
    BitRate fastest;
    for (const Building& building : scenario.buildings) {
        for (const LinkDemand& demand : building.links)
            fastest = std::max(fastest, demand.rate);
    }
    return fastest;
}

int links_per_hop(const Scenario& scenario) {
    int most = 1;
    for (const Building& building : scenario.buildings)
        most = std::max(most, link_count(building));
    return most;
}

}  // namespace spadework
