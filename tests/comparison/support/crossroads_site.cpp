#include "comparison/support/crossroads_site.hpp"

#include <utility>

namespace spadework::crossroads {

OpeningMethod method(const std::string& id, MethodKind kind, double hours, double plant) {
    OpeningMethod result;
    result.id = id;
    result.kind = kind;
    result.labour_hours_per_metre = hours;
    result.plant_per_metre = euros(plant);
    result.reinstatement_per_metre = euros(plant / 2);
    result.depth = Length::from_metres(0.6);
    result.duct_per_metre = euros(1.4);
    result.pull_hours_per_metre = 0.01;
    return result;
}

namespace {

void add_map(Scenario& site) {
    const auto place = [](const char* id, PlaceKind kind, double x, double y) {
        Place result;
        result.id = id;
        result.name = id;
        result.kind = kind;
        result.at = {x, y};
        return result;
    };
    site.places = {place("barn", PlaceKind::building, 230, 0),    place("corner", PlaceKind::handhole, 150, 0),
                   place("gate", PlaceKind::junction, 60, 0),     place("hub", PlaceKind::hub, 0, 0),
                   place("kiosk", PlaceKind::building, 100, -80), place("lodge", PlaceKind::building, 150, -70),
                   place("yard", PlaceKind::junction, 190, -60)};
    site.places[corner].enclosure_extra = Money::from_minor(12000);
    site.places[yard].enclosure_allowed = false;
    site.places[yard].enclosure_reason = "floods in spring";
    const auto segment = [&](const char* id, PlaceIndex from, PlaceIndex to, double metres, int ground) {
        Segment result;
        result.id = id;
        result.from = from;
        result.to = to;
        result.polyline = {site.places[static_cast<std::size_t>(from)].at,
                           site.places[static_cast<std::size_t>(to)].at};
        result.length = Length::from_metres(metres);
        result.ground = ground;
        return result;
    };
    site.segments = {segment("avenue", gate, corner, 90.5, 1), segment("drive", hub, gate, 60, 1),
                     segment("fence", yard, lodge, 42, 1),     segment("lane", corner, barn, 80.25, 1),
                     segment("path", corner, lodge, 70, 1),    segment("road", gate, kiosk, 110, 0),
                     segment("spur", corner, kiosk, 95, 1),    segment("wires", corner, yard, 72, 1)};
    site.segments[path].duct_room = 2;
    site.segments[road].charges = {{"road crossing", ChargeCategory::crossing, Money::from_minor(45000)}};
    site.segments[wires].pole_line = true;
}

void add_grounds(Scenario& site) {
    OpeningMethod plough = method("plough", MethodKind::plough, 0.06, 9);
    plough.set_up = Money::from_minor(35000);
    site.grounds = {{"asphalt",
                     "asphalt",
                     {method("open cut", MethodKind::open_cut, 0.5, 30), method("bore", MethodKind::bore, 0.6, 28)}},
                    {"grass", "grass", {method("open cut", MethodKind::open_cut, 0.2, 4), plough}}};
    site.existing_duct = method("existing duct", MethodKind::existing_duct, 0, 0);
    site.existing_duct.duct_per_metre = {};
    site.existing_duct.depth = {};
    site.pole_line = method("pole line", MethodKind::pole_line, 0.02, 0.5);
    site.pole_line.duct_per_metre = {};
    site.pole_line.depth = {};
}

}  // namespace

Building building(const char* id, PlaceIndex place, int links) {
    Building result;
    result.id = id;
    result.name = id;
    result.place = place;
    result.links = {{BitRate::from_megabits(1000), links}};
    result.devices = {{"camera", 2, 12.0}};
    return result;
}

CableProduct cable(const char* id, int strands, double price, double end) {
    CableProduct result;
    result.id = id;
    result.name = id;
    result.strands = strands;
    result.price_per_metre = euros(price);
    result.length_step = Length::from_metres(10);
    result.longest = Length::from_metres(250);
    result.factory_end_price = euros(end);
    return result;
}

OpticProduct optic() {
    OpticProduct result;
    result.id = "lx10";
    result.standard = "1000BASE-LX10 (IEEE 802.3 clause 59)";
    result.rate = BitRate::from_megabits(1000);
    result.reach = Length::from_metres(10000);
    result.least_length = Length::from_metres(0.5);
    result.to_building = {1310, -9, -3, -19.5, -3, 4.5};
    result.to_hub = result.to_building;
    result.price_per_end = euros(19);
    return result;
}

namespace {

void add_catalogue(Scenario& site) {
    Catalogue& shop = site.catalogue;
    shop.cables = {cable("cable-4", 4, 0.95, 38), cable("cable-12", 12, 1.305, 74), cable("cable-24", 24, 1.85, 128)};
    shop.enclosures = {{"post-12", "post", 12, euros(240), WorkTime::from_hours(2)},
                       {"post-24", "post", 24, euros(310), WorkTime::from_hours(2.5)}};
    shop.optics = {optic()};
    shop.building_gear = {{"switch-8", "switch", GearKind::poe_switch, 4, 8, 120, BitRate::from_megabits(1000),
                           euros(260), WorkTime::from_hours(1)}};
    shop.hub_gear = {{"core-8", "core", 8, BitRate::from_megabits(10000), euros(480), WorkTime::from_hours(1.5)}};
    shop.patch_cords = {{"cord-duplex", "cord", 2, euros(9)}};
    shop.splicing = {euros(6), WorkTime::from_hours(0.25), WorkTime::from_hours(1), euros(75)};
}

}  // namespace

void add_rules(Scenario& site) {
    site.labour = {euros(62), euros(48), WorkTime::from_minutes(5), WorkTime::from_minutes(6), Money::from_minor(60000),
                   8};
    site.rules.most_enclosures = 2;
    site.rules.hop_limit = 3;
    site.rules.slack = {Length::from_metres(1.5), Length::from_metres(3), Length::from_metres(2),
                        Percent::from_percent(2)};
    site.rules.spare = {Percent::from_percent(20), 2, 0};
    site.rules.failures = {{0.002728, 12}, {0.002, 12}, {0.02, 24}, {0.02, 8}};
    site.rules.contingency = Percent::from_percent(10);
    site.rules.tax = Percent::from_percent(20);
    site.growth.headroom = Percent::from_percent(30);
}

Scenario site() {
    Scenario result;
    result.name = "Crossroads";
    result.digest = "00000000000000aa";
    add_map(result);
    add_grounds(result);
    result.hub = {hub, 0};
    result.buildings = {building("barn", barn, 1), building("kiosk", kiosk, 2), building("lodge", lodge, 1)};
    add_catalogue(result);
    add_rules(result);
    return result;
}

RoutedLayout home_runs() {
    RoutedLayout routed;
    routed.kind = LayoutKind::home_runs;
    routed.buildings = {{barn_house, -1, {hub, barn, {{drive, 0}, {avenue, 0}, {lane, 0}}}},
                        {kiosk_house, -1, {hub, kiosk, {{drive, 0}, {road, 1}}}},
                        {lodge_house, -1, {hub, lodge, {{drive, 0}, {avenue, 0}, {path, 2}}}}};
    return routed;
}

RoutedLayout trunk() {
    RoutedLayout routed;
    routed.kind = LayoutKind::trunk_one;
    routed.enclosures = {{corner, {hub, corner, {{drive, 0}, {avenue, 0}}}}};
    routed.buildings = {{barn_house, 0, {corner, barn, {{lane, 0}}}},
                        {kiosk_house, 0, {corner, kiosk, {{spur, 1}}}},
                        {lodge_house, 0, {corner, lodge, {{wires, 2}, {fence, 0}}}}};
    return routed;
}

RoutedLayout chains() {
    RoutedLayout routed;
    routed.kind = LayoutKind::daisy_chain;
    routed.buildings = {{barn_house, -1, {kiosk, barn, {{spur, 0}, {lane, 0}}}},
                        {kiosk_house, -1, {hub, kiosk, {{drive, 0}, {road, 1}}}},
                        {lodge_house, -1, {hub, lodge, {{drive, 0}, {avenue, 0}, {path, 2}}}}};
    routed.chains = {{kiosk_house, barn_house}, {lodge_house}};
    return routed;
}

RoutedLayout rings() {
    RoutedLayout routed = chains();
    routed.kind = LayoutKind::ring;
    routed.closings = {{hub, barn, {{drive, 0}, {avenue, 0}, {lane, 0}}},
                       {hub, lodge, {{drive, 0}, {road, 1}, {spur, 0}, {wires, 2}, {fence, 0}}}};
    return routed;
}

Design design_of(const Scenario& scenario, const RoutedLayout& routed, Money direct_bound) {
    Assembly assembly = assemble(scenario, routed);
    Design design;
    design.layout = routed.kind;
    design.plan = std::move(assembly.plan);
    design.reason = assembly.reason;
    design.direct_bound = direct_bound;
    return design;
}

}  // namespace spadework::crossroads
