#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "comparison/verification_parts.hpp"

namespace spadework::verification {

namespace {

/// Optic ports and the fastest rate that the links ask of a building, at either end.
struct Asked {
    int ports = 0;
    BitRate rate;
};

std::map<BuildingIndex, Asked> asked_of_buildings(const Plan& plan) {
    std::map<BuildingIndex, Asked> asked;
    const auto ask = [&](BuildingIndex building, BitRate rate) {
        Asked& of = asked[building];
        of.ports += 1;
        of.rate = std::max(of.rate, rate);
    };
    for (const PlannedLink& link : plan.links) {
        ask(link.building, link.rate);
        if (link.from) ask(*link.from, link.rate);
    }
    return asked;
}

void check_gear(const Scenario& scenario, const PlannedGear& gear, const Asked& asked, Sentences& found) {
    const Building& building = item(scenario.buildings, gear.building);
    const BuildingGearProduct& product = item(scenario.catalogue.building_gear, gear.pieces.product);
    int devices = scenario.rules.spare_copper_ports;
    double watts = 0;
    for (const DeviceGroup& group : building.devices) {
        devices += group.count;
        watts += group.count * group.watts;
    }
    const int copper = gear.pieces.count * product.copper_ports - 2 * (gear.pieces.count - 1);
    if (product.optic_ports < asked.ports || product.fastest_rate < asked.rate) {
        found.push_back(fmt::format("The gear in building {} has not the optic ports or the rate.", building.id));
    }
    if (copper < devices || gear.pieces.count * product.poe_budget_w < watts) {
        found.push_back(fmt::format("The gear in building {} has not the copper ports or the power.", building.id));
    }
}

void check_hub(const Scenario& scenario, const Plan& plan, Sentences& found) {
    int ports = 0;
    BitRate rate;
    for (const PlannedLink& link : plan.links) {
        if (link.from) continue;
        ports += 1;
        rate = std::max(rate, link.rate);
    }
    if (ports != plan.hub_ports) {
        found.push_back(fmt::format("{} links begin at the hub, not {}.", ports, plan.hub_ports));
    }
    int have = scenario.hub.free_optic_ports - scenario.hub.growth_ports;
    int copper = scenario.hub.free_copper_ports;
    for (const Pieces& pieces : plan.hub_gear) {
        const HubGearProduct& product = item(scenario.catalogue.hub_gear, pieces.product);
        copper += product.copper_ports * pieces.count;
        if (product.fastest_rate >= rate) have += product.optic_ports * pieces.count;
    }
    for (const HubDevice& device : scenario.hub.devices)
        copper -= device.count;
    if (have < ports) {
        found.push_back(fmt::format("The hub has {} optic ports beside those for growth and needs {}.", have, ports));
    }
    if (copper < 0) found.push_back(fmt::format("The hub lacks {} copper ports.", -copper));
}

}  // namespace

Sentences gear_violations(const Scenario& scenario, const Plan& plan) {
    Sentences found;
    const auto asked = asked_of_buildings(plan);
    std::map<BuildingIndex, int> entries;
    for (const PlannedGear& gear : plan.building_gear) {
        ++entries[gear.building];
        const auto of = asked.find(gear.building);
        check_gear(scenario, gear, of == asked.end() ? Asked{} : of->second, found);
    }
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        if (entries[static_cast<BuildingIndex>(b)] == 1) continue;
        found.push_back(fmt::format("Building {} does not have gear once.", scenario.buildings[b].id));
    }
    check_hub(scenario, plan, found);
    return found;
}

}  // namespace spadework::verification
