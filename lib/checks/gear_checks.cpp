#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "catalogue/poe_class.hpp"
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
    const int ports = std::max(0, free_copper_ports(product, count));
    if (ports >= needed) return;
    findings.push_back(
        {"copper-ports", FindingSeverity::error, where,
         fmt::format("the devices and the spare policy need {} copper ports, {} has {}", needed, product.id, ports),
         static_cast<double>(needed), static_cast<double>(ports), "ports"});
}

double hungriest_w(const Building& building) {
    double watts = 0;
    for (const DeviceGroup& group : building.devices)
        watts = std::max(watts, group.watts);
    return watts;
}

/// Power sums up first; where ports are not short, whole devices must also find it at one piece each.
void check_power(const Scenario& scenario, const Building& building, const BuildingGearProduct& product, int count,
                 const std::string& where, Findings& findings) {
    const double budget = count * product.poe_budget_w;
    const auto demand = poe_demand_w(building);
    if (!demand) {
        const double highest = poe_classes().back().device_w;
        findings.push_back({"poe-class", FindingSeverity::error, where,
                            "a device needs more power than the highest class of IEEE 802.3 delivers",
                            hungriest_w(building), highest, "W"});
        return;
    }
    constexpr double rounding_w = 1e-6;
    const bool sum_fits = *demand <= budget + rounding_w;
    const bool has_ports = free_copper_ports(product, count) >= copper_ports_needed(building, scenario.rules);
    if (!sum_fits || (has_ports && !power_suffices(product, count, building))) {
        const char* shared = sum_fits ? ", which cannot be shared out among whole devices" : "";
        findings.push_back({"poe-budget", FindingSeverity::error, where,
                            fmt::format("the devices take {:.1f} W at their port classes, {} x {} supplies {:.1f} W{}",
                                        *demand, count, product.id, budget, shared),
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

void check_copper_runs(const Scenario& scenario, const Building& building, const std::string& where,
                       Findings& findings) {
    const Length limit = scenario.rules.longest_copper;
    for (const DeviceGroup& group : building.devices) {
        if (!group.copper_length || *group.copper_length <= limit) continue;
        findings.push_back({"copper-length", FindingSeverity::error, where,
                            fmt::format("{} hangs on {:.1f} m of copper, {:.1f} m carry it", group.what,
                                        group.copper_length->metres(), limit.metres()),
                            group.copper_length->metres(), limit.metres(), "m"});
    }
}

/// Ports at the hub: those free already and those of its gear, optic ports at the rate of the fastest link alone.
struct HubPorts {
    int optic = 0;
    int copper = 0;
};

HubPorts hub_ports_there(const Scenario& scenario, const Plan& plan) {
    BitRate fastest;
    for (const PlannedLink& link : plan.links) {
        if (!link.from) fastest = std::max(fastest, link.rate);
    }
    HubPorts there{scenario.hub.free_optic_ports, scenario.hub.free_copper_ports};
    for (const Pieces& pieces : plan.hub_gear) {
        const auto& product = scenario.catalogue.hub_gear[static_cast<std::size_t>(pieces.product)];
        if (product.fastest_rate >= fastest) there.optic += pieces.count * product.optic_ports;
        there.copper += pieces.count * product.copper_ports;
    }
    return there;
}

void check_hub_ports(const Scenario& scenario, const Plan& plan, Findings& findings) {
    const HubPorts there = hub_ports_there(scenario, plan);
    const int optic = plan.hub_ports + scenario.hub.growth_ports;
    if (there.optic < optic) {
        const std::string growth =
            scenario.hub.growth_ports > 0 ? fmt::format(", {} of them for growth", scenario.hub.growth_ports) : "";
        findings.push_back({"hub-ports", FindingSeverity::error, "hub",
                            fmt::format("{} optic ports are needed{}, and {} are there", optic, growth, there.optic),
                            static_cast<double>(optic), static_cast<double>(there.optic), "ports"});
    }
    const int copper = hub_copper_ports_needed(scenario.hub);
    if (there.copper < copper) {
        findings.push_back(
            {"hub-copper-ports", FindingSeverity::error, "hub",
             fmt::format("what stands at the hub takes {} copper ports, and {} are there", copper, there.copper),
             static_cast<double>(copper), static_cast<double>(there.copper), "ports"});
    }
}

/// What all buildings ask for against the way out of the hub. More is usual, for not all speak at once; how much more
/// is for people to judge.
void check_uplink(const Scenario& scenario, Findings& findings) {
    if (!scenario.hub.uplink) return;
    double demand = 0;
    for (const Building& building : scenario.buildings) {
        for (const LinkDemand& link : building.links)
            demand += static_cast<double>(link.rate.megabits()) * link.count;
    }
    const auto uplink = static_cast<double>(scenario.hub.uplink->megabits());
    if (demand <= uplink) return;
    findings.push_back({"hub-uplink", FindingSeverity::warning, "hub",
                        fmt::format("all buildings together ask for {:.0f} Mbit/s, {:.1f} times what the uplink of {} "
                                    "carries",
                                    demand, demand / uplink, to_text(*scenario.hub.uplink)),
                        demand, uplink, "Mbit/s"});
}

}  // namespace

void check_gear(const Scenario& scenario, const Plan& plan, Findings& findings) {
    std::map<BuildingIndex, OpticUse> in_use = optic_use(plan);
    for (const PlannedGear& gear : plan.building_gear) {
        const Building& building = scenario.buildings[static_cast<std::size_t>(gear.building)];
        const auto& product = scenario.catalogue.building_gear[static_cast<std::size_t>(gear.pieces.product)];
        const std::string where = at_building(scenario, gear.building);
        check_copper_ports(scenario, building, product, gear.pieces.count, where, findings);
        check_power(scenario, building, product, gear.pieces.count, where, findings);
        check_optic_ports(product, in_use[gear.building], where, findings);
        check_copper_runs(scenario, building, where, findings);
        in_use.erase(gear.building);
    }
    for (const auto& [building, use] : in_use) {
        findings.push_back({"gear-missing", FindingSeverity::error, at_building(scenario, building),
                            "links end here and no gear is planned", static_cast<double>(use.ports), 0, "ports"});
    }
    check_hub_ports(scenario, plan, findings);
    check_uplink(scenario, findings);
}

}  // namespace spadework
