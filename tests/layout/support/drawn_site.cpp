#include "layout/support/drawn_site.hpp"

#include <fmt/format.h>

namespace spadework::drawing {

BuildingGearProduct gear(const std::string& id, GearKind kind, int optic_ports, int copper_ports) {
    BuildingGearProduct product;
    product.id = id;
    product.name = id;
    product.kind = kind;
    product.optic_ports = optic_ports;
    product.copper_ports = copper_ports;
    product.poe_budget_w = kind == GearKind::media_converter ? 0 : 120;
    product.fastest_rate = BitRate::from_megabits(10000);
    product.install_time = WorkTime::from_minutes(30);
    return product;
}

HubGearProduct hub_gear(const std::string& id, int ports, std::int64_t price) {
    return {id,
            id,
            ports,
            BitRate::from_megabits(10000),
            UnitPrice::from_money(Money::from_minor(price)),
            WorkTime::from_minutes(60)};
}

namespace {

Catalogue small_catalogue() {
    Catalogue catalogue;
    catalogue.cables = {cable(4, 60), cable(12, 100), cable(24, 160)};
    catalogue.enclosures = {enclosure(12, 9000), enclosure(48, 21000)};
    catalogue.optics = {optic("lx", 1000, 10000, 1800), optic("lr", 10000, 10000, 4500)};
    catalogue.building_gear = {gear("converter", GearKind::media_converter, 1, 1),
                               gear("switch-8", GearKind::poe_switch, 2, 8),
                               gear("switch-24", GearKind::poe_switch, 8, 24)};
    catalogue.building_gear[0].price = cents(6000);
    catalogue.building_gear[1].price = cents(21000);
    catalogue.building_gear[2].price = cents(48000);
    catalogue.hub_gear = {hub_gear("hub-8", 8, 30000), hub_gear("hub-24", 24, 70000)};
    catalogue.patch_cords = {{"cord-2", "cord-2", 2, cents(450)}, {"cord-1", "cord-1", 1, cents(300)}};
    catalogue.splicing = {cents(800), WorkTime::from_minutes(6), WorkTime::from_minutes(30), cents(7200)};
    return catalogue;
}

}  // namespace

CableProduct cable(int strands, double cents_per_metre) {
    CableProduct product;
    product.id = fmt::format("cable-{}", strands);
    product.name = product.id;
    product.strands = strands;
    product.price_per_metre = cents(cents_per_metre);
    product.length_step = Length::from_millimetres(1);
    product.longest = Length::from_metres(100000);
    product.factory_end_price = cents(1000 + 50 * strands);
    product.diameter_mm = 8;
    return product;
}

EnclosureProduct enclosure(int adapters, std::int64_t price) {
    return {fmt::format("enclosure-{}", adapters), fmt::format("enclosure-{}", adapters), adapters,
            UnitPrice::from_money(Money::from_minor(price)), WorkTime::from_minutes(60)};
}

OpticProduct optic(const std::string& id, std::int64_t megabits, double reach_metres, std::int64_t price) {
    OpticProduct product;
    product.id = id;
    product.name = id;
    product.rate = BitRate::from_megabits(megabits);
    product.reach = Length::from_metres(reach_metres);
    product.to_building = {1310, -9, -3, -19.5, -3, 0};
    product.to_hub = product.to_building;
    product.price_per_end = UnitPrice::from_money(Money::from_minor(price));
    return product;
}

Scenario bare_site() {
    Scenario site;
    site.name = "Invented test site";
    site.catalogue = small_catalogue();
    site.labour = {
        cents(6000), cents(3600), WorkTime::from_minutes(5), WorkTime::from_minutes(10), Money::from_minor(50000), 8};
    site.existing_duct = {"existing-duct", MethodKind::existing_duct, 0, {}, {}, {}, {}, {}, {}, 0};
    site.pole_line = {"pole-line", MethodKind::pole_line, 0, cents(300), {}, {}, {}, {}, {}, 0};
    site.rules.loss.mated_pair_db = 0.5;
    add_place(site, PlaceKind::hub);
    add_ground(site, 2000);
    return site;
}

PlaceIndex add_place(Scenario& site, PlaceKind kind) {
    Place place;
    place.id = fmt::format("p{:04}", site.places.size());
    place.name = place.id;
    place.kind = kind;
    place.at = {static_cast<double>(site.places.size()), 0};
    site.places.push_back(place);
    return static_cast<PlaceIndex>(site.places.size()) - 1;
}

SegmentIndex add_segment(Scenario& site, PlaceIndex from, PlaceIndex to, double metres) {
    Segment segment;
    segment.id = fmt::format("s{:04}", site.segments.size());
    segment.from = from;
    segment.to = to;
    segment.polyline = {site.places[static_cast<std::size_t>(from)].at, site.places[static_cast<std::size_t>(to)].at};
    segment.length = Length::from_metres(metres);
    site.segments.push_back(segment);
    return static_cast<SegmentIndex>(site.segments.size()) - 1;
}

BuildingIndex add_building(Scenario& site, PlaceIndex at, int links) {
    Building building;
    building.id = fmt::format("b{:03}", site.buildings.size());
    building.name = building.id;
    building.place = at;
    building.links = {{BitRate::from_megabits(1000), links}};
    if (site.places[static_cast<std::size_t>(at)].kind == PlaceKind::junction) {
        site.places[static_cast<std::size_t>(at)].kind = PlaceKind::building;
    }
    site.buildings.push_back(building);
    return static_cast<BuildingIndex>(site.buildings.size()) - 1;
}

int add_ground(Scenario& site, double cents_per_metre) {
    OpeningMethod method;
    method.id = "open-cut";
    method.plant_per_metre = cents(cents_per_metre);
    method.depth = Length::from_millimetres(600);
    site.grounds.push_back({fmt::format("ground-{}", site.grounds.size()), "", {method}});
    return static_cast<int>(site.grounds.size()) - 1;
}

Scenario row_site(int buildings, double metres) {
    Scenario site = bare_site();
    PlaceIndex last = 0;
    for (int b = 0; b < buildings; ++b) {
        const PlaceIndex at = add_place(site);
        add_segment(site, last, at, metres);
        add_building(site, at);
        last = at;
    }
    return site;
}

}  // namespace spadework::drawing
