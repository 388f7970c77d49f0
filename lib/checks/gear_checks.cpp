#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "checks/finding_makers.hpp"
#include "rates/gear_rates.hpp"

namespace spadework {

namespace {

/// What the links that end in a building and those that start there ask of its gear.
struct OpticUse {
    int ports = 0;
    BitRate fastest;
};

std::map<BuildingIndex, OpticUse> optic_use(const Plan& plan) {
    std::map<BuildingIndex, OpticUse> use;
    const auto add = [&use](BuildingIndex building, BitRate rate) {
        ++use[building].ports;
        use[building].fastest = std::max(use[building].fastest, rate);
    };
    for (const PlannedLink& link : plan.links) {
        add(link.building, link.rate);
        if (link.from) add(*link.from, link.rate);
    }
    return use;
}

void check_copper_ports(const Scenario& scenario, const Building& building, const BuildingGearProduct& product,
                        int count, const std::string& where, Findings& findings) {
    const int needed = copper_ports_needed(building, scenario.rules);
    const int ports = count * product.copper_ports - 2 * (count - 1);
    if (ports >= needed) return;
    findings.push_back(
        {"copper-ports", FindingSeverity::error, where,
         fmt::format("the devices and the spare policy need {} copper ports, {} has {}", needed, product.id, ports),
         static_cast<double>(needed), static_cast<double>(ports), "ports"});
}

void check_power(const Building& building, const BuildingGearProduct& product, int count, const std::string& where,
                 Findings& findings) {
    const double budget = count * product.poe_budget_w;
    const auto demand = poe_demand_w(building);
    if (!demand) {
        findings.push_back({"poe-class", FindingSeverity::error, where,
                            "a device needs more power than the highest class of IEEE 802.3 delivers", 0, 71.3, "W"});
    } else if (!power_suffices(product, count, *demand)) {
        findings.push_back({"poe-budget", FindingSeverity::error, where,
                            fmt::format("the devices take {:.1f} W at their port classes, {} supplies {:.1f} W",
                                        *demand, product.id, budget),
                            *demand, budget, "W"});
    }
}

void check_optic_ports(const BuildingGearProduct& product, const OpticUse& use, const std::string& where,
                       Findings& findings) {
    if (product.optic_ports < use.ports) {
        findings.push_back(
            {"optic-ports", FindingSeverity::error, where,
             fmt::format("{} optic ports are in use, {} has {}", use.ports, product.id, product.optic_ports),
             static_cast<double>(use.ports), static_cast<double>(product.optic_ports), "ports"});
    }
    if (product.fastest_rate < use.fastest) {
        findings.push_back({"gear-rate", FindingSeverity::error, where,
                            fmt::format("{} runs {}, a link here runs {}", product.id, to_text(product.fastest_rate),
                                        to_text(use.fastest)),
                            static_cast<double>(product.fastest_rate.megabits()),
                            static_cast<double>(use.fastest.megabits()), "Mbit/s"});
    }
}

void check_hub(const Scenario& scenario, const Plan& plan, Findings& findings) {
    int ports = scenario.hub.free_optic_ports;
    for (const Pieces& pieces : plan.hub_gear) {
        ports += pieces.count * scenario.catalogue.hub_gear[static_cast<std::size_t>(pieces.product)].optic_ports;
    }
    if (ports >= plan.hub_ports) return;
    findings.push_back({"hub-ports", FindingSeverity::error, "hub",
                        fmt::format("{} optic ports are in use and {} are there", plan.hub_ports, ports),
                        static_cast<double>(plan.hub_ports), static_cast<double>(ports), "ports"});
}

}  // namespace

void check_gear(const Scenario& scenario, const Plan& plan, Findings& findings) {
    std::map<BuildingIndex, OpticUse> in_use = optic_use(plan);
    for (const PlannedGear& gear : plan.building_gear) {
        const Building& building = scenario.buildings[static_cast<std::size_t>(gear.building)];
        const auto& product = scenario.catalogue.building_gear[static_cast<std::size_t>(gear.pieces.product)];
        const std::string where = at_building(scenario, gear.building);
        check_copper_ports(scenario, building, product, gear.pieces.count, where, findings);
        check_power(building, product, gear.pieces.count, where, findings);
        check_optic_ports(product, in_use[gear.building], where, findings);
        in_use.erase(gear.building);
    }
    for (const auto& [building, use] : in_use) {
        findings.push_back({"gear-missing", FindingSeverity::error, at_building(scenario, building),
                            "links end here and no gear is planned", static_cast<double>(use.ports), 0, "ports"});
    }
    check_hub(scenario, plan, findings);
}

}  // namespace spadework
