#include "support/small_site.hpp"

#include <utility>

namespace spadework::small_site {

Place place(const std::string& id, PlaceKind kind, double x, double y) {
    Place result;
    result.id = id;
    result.name = id;
    result.kind = kind;
    result.at = {x, y};
    return result;
}

void add_segment(Scenario& site, const std::string& id, PlaceIndex from, PlaceIndex to, double length) {
    Segment segment;
    segment.id = id;
    segment.from = from;
    segment.to = to;
    segment.polyline = {site.places[static_cast<std::size_t>(from)].at, site.places[static_cast<std::size_t>(to)].at};
    segment.length = metres(length);
    site.segments.push_back(segment);
}

OpeningMethod open_cut() {
    OpeningMethod method;
    method.id = "open-cut";
    method.labour_hours_per_metre = 0.2;
    method.plant_per_metre = cents(300);
    method.material_per_metre = cents(100);
    method.reinstatement_per_metre = cents(400);
    method.set_up = Money::from_minor(5000);
    method.depth = metres(0.6);
    method.duct_per_metre = cents(150);
    method.pull_hours_per_metre = 0.01;
    return method;
}

CableProduct cable(int strands, double per_metre, double end) {
    CableProduct product;
    product.id = "cable-" + std::to_string(strands);
    product.name = product.id;
    product.strands = strands;
    product.price_per_metre = cents(per_metre);
    product.length_step = metres(10);
    product.longest = metres(1000);
    product.factory_end_price = cents(end);
    return product;
}

BuildingGearProduct gear(const std::string& id, GearKind kind, int optic_ports, int copper_ports, double watts) {
    BuildingGearProduct product;
    product.id = id;
    product.name = id;
    product.kind = kind;
    product.optic_ports = optic_ports;
    product.copper_ports = copper_ports;
    product.poe_budget_w = watts;
    product.fastest_rate = megabits(1000);
    product.install_time = WorkTime::from_minutes(30);
    return product;
}

OpticProduct optic() {
    OpticProduct product;
    product.id = "lx10";
    product.rate = megabits(1000);
    product.reach = metres(10000);
    product.least_length = metres(0.5);
    product.to_building = {1310, -9, -3, -19.5, -3, 4.5};
    product.to_hub = product.to_building;
    product.price_per_end = cents(1800);
    return product;
}

Catalogue catalogue() {
    Catalogue shop;
    shop.cables = {cable(4, 60, 3000), cable(12, 100, 5000), cable(24, 160, 8000)};
    shop.enclosures = {{"post-8", "post-8", 8, cents(20000), WorkTime::from_minutes(90)},
                       {"post-24", "post-24", 24, cents(31000), WorkTime::from_minutes(90)}};
    shop.optics = {optic()};
    shop.building_gear = {gear("converter", GearKind::media_converter, 1, 1, 30),
                          gear("switch-8", GearKind::poe_switch, 4, 8, 120)};
    shop.building_gear[0].price = cents(6000);
    shop.building_gear[1].price = cents(21000);
    shop.hub_gear = {{"core-8", "core-8", 8, megabits(10000), cents(30000), WorkTime::from_minutes(60)}};
    shop.patch_cords = {{"cord-2", "cord-2", 2, cents(450)}};
    shop.splicing = {cents(800), WorkTime::from_minutes(6), WorkTime::from_minutes(30), cents(7200)};
    return shop;
}

Building building(const std::string& id, PlaceIndex at, std::vector<DeviceGroup> devices) {
    Building result;
    result.id = id;
    result.name = id;
    result.place = at;
    result.links = {{megabits(1000), 1}};
    result.devices = std::move(devices);
    return result;
}

void add_rules(Scenario& site) {
    site.labour = {
        cents(6000), cents(3600), WorkTime::from_minutes(5), WorkTime::from_minutes(10), Money::from_minor(50000), 8};
    site.rules.slack.rise_per_end = metres(2);
    site.rules.slack.coil_per_end = metres(3);
    site.rules.hop_limit = 2;
    site.rules.contingency = Percent::from_percent(10);
    site.rules.tax = Percent::from_percent(20);
}

Scenario site() {
    Scenario result;
    result.name = "Small site";
    result.places = {place("barn", PlaceKind::building, 100, -30), place("gate", PlaceKind::handhole, 100, 0),
                     place("hub", PlaceKind::hub, 0, 0), place("mill", PlaceKind::building, 150, 0)};
    result.grounds = {{"grass", "grass", {open_cut()}}};
    add_segment(result, "drive", hub, gate, 100);
    add_segment(result, "lane", gate, mill_place, 50);
    add_segment(result, "path", gate, barn_place, 30);
    result.segments[drive].charges = {{"road crossing", ChargeCategory::crossing, Money::from_minor(45000)},
                                      {"permit", ChargeCategory::permit, Money::from_minor(8000)}};
    result.existing_duct.id = "existing-duct";
    result.existing_duct.kind = MethodKind::existing_duct;
    result.pole_line.id = "pole-line";
    result.pole_line.kind = MethodKind::pole_line;
    result.hub = {hub, 0};
    result.catalogue = catalogue();
    result.buildings = {building("barn", barn_place, {{"camera", 3, 12.0}}),
                        building("mill", mill_place, {{"camera", 2, 12.0}})};
    add_rules(result);
    return result;
}

PlaceIndex end_of(const Scenario& site, PlaceIndex from, const std::vector<Step>& steps) {
    for (const Step& step : steps) {
        const Segment& segment = site.segments[static_cast<std::size_t>(step.segment)];
        from = segment.from == from ? segment.to : segment.from;
    }
    return from;
}

PlannedCable cable_along(const Scenario& site, const std::string& id, std::vector<Step> steps, int product) {
    Length route;
    for (const Step& step : steps)
        route += site.segments[static_cast<std::size_t>(step.segment)].length;
    PlannedCable result;
    result.id = id;
    result.product = product;
    result.need = {2, 0, 0};
    result.lengths = cable_lengths(site.catalogue.cables[static_cast<std::size_t>(product)], route, 0, site.rules);
    result.from = hub;
    result.to = end_of(site, hub, steps);
    result.steps = std::move(steps);
    return result;
}

PlannedLink link_to(BuildingIndex building, const Plan& plan, std::vector<int> cables) {
    PlannedLink link;
    link.building = building;
    link.rate = megabits(1000);
    for (const int c : cables)
        link.glass += plan.cables[static_cast<std::size_t>(c)].lengths.ordered;
    link.cables = std::move(cables);
    return link;
}

namespace {

/// A switch in each building and one at the hub.
void add_gear(Plan& plan, int hub_ports) {
    plan.building_gear = {{barn, {1, 1}}, {mill, {1, 1}}};
    plan.hub_gear = {{0, 1}};
    plan.hub_ports = hub_ports;
}

}  // namespace

Plan home_runs(const Scenario& site) {
    Plan plan;
    plan.trenches = {{drive, 0}, {lane, 0}, {path, 0}};
    plan.cables = {cable_along(site, "run-barn", {{drive, 0}, {path, 0}}),
                   cable_along(site, "run-mill", {{drive, 0}, {lane, 0}})};
    plan.cables[0].building = barn;
    plan.cables[1].building = mill;
    plan.links = {link_to(barn, plan, {0}), link_to(mill, plan, {1})};
    add_gear(plan, 2);
    return plan;
}

namespace {

PlannedCable from_the_gate(PlannedCable cable, BuildingIndex building, PlaceIndex to) {
    cable.role = CableRole::drop;
    cable.from = gate;
    cable.to = to;
    cable.building = building;
    cable.enclosure = 0;
    return cable;
}

}  // namespace

Plan trunk(const Scenario& site) {
    Plan plan;
    plan.layout = LayoutKind::trunk_one;
    plan.trenches = {{drive, 0}, {lane, 0}, {path, 0}};
    plan.cables = {cable_along(site, "trunk-1", {{drive, 0}}, cable_12),
                   from_the_gate(cable_along(site, "drop-barn", {{path, 0}}), barn, barn_place),
                   from_the_gate(cable_along(site, "drop-mill", {{lane, 0}}), mill, mill_place)};
    plan.cables[0].role = CableRole::trunk;
    plan.cables[0].enclosure = 0;
    plan.cables[0].need = {4, 2, 2};
    plan.enclosures = {{gate, {{0, 1}}, {4, 2, 2}, {0}, {barn, mill}}};
    plan.links = {link_to(barn, plan, {0, 1}), link_to(mill, plan, {0, 2})};
    for (PlannedLink& link : plan.links)
        link.mated_pairs = 3;
    add_gear(plan, 2);
    return plan;
}

Plan chain(const Scenario& site) {
    Plan plan;
    plan.layout = LayoutKind::daisy_chain;
    plan.trenches = {{drive, 0}, {lane, 0}, {path, 0}};
    plan.cables = {cable_along(site, "hop-barn", {{drive, 0}, {path, 0}}),
                   cable_along(site, "hop-mill", {{path, 0}, {lane, 0}})};
    for (PlannedCable& cable : plan.cables)
        cable.role = CableRole::hop;
    plan.cables[0].building = barn;
    plan.cables[1].building = mill;
    plan.cables[1].from = barn_place;
    plan.cables[1].to = mill_place;
    plan.links = {link_to(barn, plan, {0}), link_to(mill, plan, {1})};
    plan.links[1].from = barn;
    plan.chains = {{barn, mill}};
    add_gear(plan, 1);
    return plan;
}

Plan ring(const Scenario& site) {
    Plan plan = chain(site);
    plan.layout = LayoutKind::ring;
    plan.cables.push_back(cable_along(site, "closing-mill", {{drive, 0}, {lane, 0}}));
    plan.cables.back().role = CableRole::closing;
    plan.cables.back().building = mill;
    plan.links.push_back(link_to(mill, plan, {2}));
    plan.links.back().number = 2;
    plan.hub_ports = 2;
    return plan;
}

}  // namespace spadework::small_site
