#include "report/support/crossroads_comparison.hpp"

#include <string>
#include <vector>

namespace spadework::crossroads {

Comparison comparison_of(const Scenario& scenario) {
    std::vector<LayoutResult> layouts;
    for (const RoutedLayout& routed : {home_runs(), trunk(), chains(), rings()})
        layouts.push_back(assess(scenario, design_of(scenario, routed, Money::from_minor(900000))));
    Design mixed;
    mixed.layout = LayoutKind::mixed;
    mixed.reason = "the rules allow no enclosure";
    layouts.push_back(assess(scenario, mixed));
    return compare(scenario, layouts);
}

Scenario hostile_site() {
    Scenario result = site();
    int number = 0;
    const auto spoil = [&](std::string& text) { text = hostile + std::to_string(number++); };
    spoil(result.name);
    spoil(result.note);
    for (Place& place : result.places) {
        spoil(place.id);
        spoil(place.name);
    }
    for (Segment& segment : result.segments)
        spoil(segment.id);
    for (Segment& segment : result.segments) {
        for (FixedCharge& charge : segment.charges)
            spoil(charge.what);
    }
    for (Ground& ground : result.grounds) {
        spoil(ground.id);
        for (OpeningMethod& method : ground.methods)
            spoil(method.id);
    }
    for (Building& building : result.buildings) {
        spoil(building.id);
        spoil(building.name);
    }
    for (CableProduct& cable : result.catalogue.cables)
        spoil(cable.id);
    for (EnclosureProduct& enclosure : result.catalogue.enclosures)
        spoil(enclosure.id);
    spoil(result.catalogue.optics[0].id);
    spoil(result.catalogue.building_gear[0].id);
    spoil(result.catalogue.hub_gear[0].id);
    return result;
}

Scenario long_site() {
    Scenario result = site();
    for (int i = 0; i < 40; ++i) {
        const std::string id = "workshop-and-warehouse-number-" + std::to_string(1000 + i);
        Place place = result.places[barn];
        place.id = id;
        place.name = id;
        place.at = {300.0 + i, 20.0 * i};
        result.places.push_back(place);
        Segment way = result.segments[avenue];
        way.id = "lane-to-" + id;
        way.from = corner;
        way.to = static_cast<PlaceIndex>(result.places.size()) - 1;
        way.length = Length::from_metres(1000.0 + i);
        result.segments.push_back(way);
        result.buildings.push_back(building(id.c_str(), way.to, 1));
    }
    CableProduct large = cable("cable-with-a-long-name-144", 144, 7.5, 640);
    result.catalogue.cables.push_back(large);
    result.catalogue.hub_gear[0].price = euros(123456.78);
    return result;
}

RoutedLayout long_trunk() {
    RoutedLayout routed = trunk();
    for (int i = 0; i < 40; ++i) {
        const PlaceIndex place = yard + 1 + i;
        const SegmentIndex lane_index = wires + 1 + i;
        routed.buildings.push_back({lodge_house + 1 + i, 0, {corner, place, {{lane_index, 0}}}});
    }
    return routed;
}

}  // namespace spadework::crossroads
