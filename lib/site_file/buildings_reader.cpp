#include <fmt/format.h>

#include "geometry/geodesic.hpp"
#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

std::optional<int> nearest_place(const Position& at, const Scenario& scenario) {
    std::optional<int> nearest;
    double least = 0;
    for (std::size_t i = 0; i < scenario.places.size(); ++i) {
        const double metres = metres_between(at, scenario.places[i].at, scenario.coordinates);
        const bool tie_to_lower_id = nearest && metres == least &&
                                     scenario.places[i].id < scenario.places[static_cast<std::size_t>(*nearest)].id;
        if (!nearest || metres < least || tie_to_lower_id) {
            nearest = static_cast<int>(i);
            least = metres;
        }
    }
    return nearest;
}

std::optional<int> hub_place(Fields& fields, Reading& reading, const Draft& draft) {
    if (fields.has("place") && fields.has("near")) {
        reading.error(fields.position("near"), "both 'place' and 'near' for the hub", "one of the two");
        return std::nullopt;
    }
    if (draft.has_hub) return draft.scenario.hub.place;
    if (fields.has("place")) {
        const std::string id = fields.id("place");
        if (id.empty() || !draft.has_map) return std::nullopt;
        const int number = draft.places.find(id, fields.position("place"), reading);
        return number < 0 ? std::nullopt : std::optional<int>(number);
    }
    if (!fields.has("near")) {
        reading.error(fields.position(), "the hub's place is missing", "key 'place' or 'near'");
        return std::nullopt;
    }
    const auto at = read_position(fields.document(), fields.node("near"), draft.scenario.coordinates, reading);
    if (!at) return std::nullopt;
    const auto nearest = nearest_place(*at, draft.scenario);
    if (!nearest) return std::nullopt;
    const Position& place = draft.scenario.places[static_cast<std::size_t>(*nearest)].at;
    return is_near(metres_between(*at, place, draft.scenario.coordinates), fields.position("near"), reading)
               ? nearest
               : std::nullopt;
}

void read_hub_ports(Fields& fields, Hub& hub) {
    hub.free_optic_ports = fields.whole("free-optic-ports");
    hub.free_copper_ports = fields.whole("free-copper-ports");
    hub.growth_ports = fields.whole("growth-ports");
    if (fields.has("uplink")) hub.uplink = fields.rate("uplink");
    for (const NodeId item : fields.items("devices")) {
        Fields device = fields.item("devices", item, std::to_string(hub.devices.size()));
        HubDevice taken;
        taken.what = device.text("what");
        taken.count = device.whole("count");
        hub.devices.push_back(std::move(taken));
    }
}

/// A building's place: the one it names, or the one with its id.
std::optional<int> building_place(Fields& fields, const std::string& id, Reading& reading, const Draft& draft) {
    if (fields.has("place")) {
        const std::string place = fields.id("place");
        if (place.empty() || !draft.has_map || draft.skipped_places.contains(place)) return std::nullopt;
        const int number = draft.places.find(place, fields.position("place"), reading);
        return number < 0 ? std::nullopt : std::optional<int>(number);
    }
    if (id.empty() || !draft.has_map || draft.skipped_places.contains(id)) return std::nullopt;
    const int number = draft.places.number_of(id);
    if (number < 0) {
        reading.error(fields.position("id"), fmt::format("no place {} for building {}", quoted(id), quoted(id)),
                      "a place with the building's id, or key 'place'", reading.nearest(id, draft.places.names()));
        return std::nullopt;
    }
    return number;
}

void read_building(Fields fields, Reading& reading, Draft& draft) {
    Building building;
    building.id = fields.id("id");
    building.name = fields.text("name");
    if (building.name.empty()) building.name = building.id;
    const auto place = building_place(fields, building.id, reading, draft);
    building.links = read_links(fields);
    building.devices = read_devices(fields);
    if (building.id.empty()) return;
    const int number = static_cast<int>(draft.scenario.buildings.size());
    if (!draft.buildings.add(building.id, number, fields.position("id"), reading) || !place) return;
    building.place = *place;
    draft.scenario.buildings.push_back(std::move(building));
    draft.building_positions.push_back(fields.position("id"));
}

/// Buildings of the map stand where the file lists none.
void add_buildings_of_map(Reading& reading, Draft& draft) {
    std::set<PlaceIndex> standing;
    for (const Building& building : draft.scenario.buildings)
        standing.insert(building.place);
    for (Building& building : draft.from_map) {
        if (standing.contains(building.place)) continue;
        const SourcePosition& where = draft.place_positions[static_cast<std::size_t>(building.place)];
        const int number = static_cast<int>(draft.scenario.buildings.size());
        if (!draft.buildings.add(building.id, number, where, reading)) continue;
        draft.building_positions.push_back(where);
        draft.scenario.buildings.push_back(std::move(building));
    }
}

std::string label_of(const Document& document, NodeId item, std::size_t number) {
    const NodeId id = document.find(item, "id");
    if (id != no_node && document.at(id).kind == NodeKind::scalar) return document.at(id).text;
    return std::to_string(number);
}

}  // namespace

bool is_near(double metres, const SourcePosition& where, Reading& reading) {
    constexpr double farthest_metres = 1000;
    if (metres <= farthest_metres) return true;
    reading.error(where, fmt::format("the nearest place is {:.0f} m away", metres),
                  fmt::format("a position within {:.0f} m of a place", farthest_metres));
    return false;
}

std::vector<LinkDemand> read_links(Fields& fields) {
    std::vector<LinkDemand> links;
    for (const NodeId item : fields.items("links")) {
        Fields link = fields.item("links", item, std::to_string(links.size()));
        const auto rate = link.rate("rate");
        links.push_back({rate.value_or(BitRate()), link.whole("count")});
    }
    return links;
}

std::vector<DeviceGroup> read_devices(Fields& fields) {
    std::vector<DeviceGroup> devices;
    for (const NodeId item : fields.items("devices")) {
        Fields device = fields.item("devices", item, std::to_string(devices.size()));
        DeviceGroup group;
        group.what = device.text("what");
        group.count = device.whole("count");
        group.watts = device.number("watts");
        if (device.has("copper-length")) group.copper_length = device.length("copper-length");
        devices.push_back(std::move(group));
    }
    return devices;
}

void read_hub(Fields fields, Reading& reading, Draft& draft) {
    const auto place = hub_place(fields, reading, draft);
    read_hub_ports(fields, draft.scenario.hub);
    if (!place) return;
    draft.scenario.hub.place = *place;
    draft.has_hub = true;
}

void read_buildings(Fields& site, Reading& reading, Draft& draft) {
    std::size_t number = 0;
    for (const NodeId item : site.items("buildings"))
        read_building(site.item("buildings", item, label_of(site.document(), item, number++)), reading, draft);
    add_buildings_of_map(reading, draft);
}

}  // namespace spadework::site_file
