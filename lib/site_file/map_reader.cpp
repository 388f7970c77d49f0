#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "geometry/geodesic.hpp"
#include "site_file/keys.hpp"
#include "site_file/plain_number.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

constexpr PlaceKind place_kinds[] = {PlaceKind::junction, PlaceKind::handhole, PlaceKind::pole, PlaceKind::building,
                                     PlaceKind::hub};
constexpr ChargeCategory charge_categories[] = {ChargeCategory::crossing, ChargeCategory::permit};
constexpr double farthest_plane_metres = 1e7;
constexpr double longest_segment_metres = 1e6;
/// Stands in for a position that could not be read; the error has been noted.
constexpr Position unknown_position{std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN()};

std::optional<double> coordinate(const Document& document, NodeId node, Reading& reading) {
    const Node& written = document.at(node);
    const PlainNumber number = written.kind == NodeKind::scalar && !written.quoted
                                   ? plain_number(written.text, document.syntax)
                                   : PlainNumber{0, "not a number"};
    if (number.problem.empty()) return number.value;
    reading.error(document.position(node), fmt::format("coordinate is {}, {}", description(written), number.problem),
                  "a plain number");
    return std::nullopt;
}

bool in_range(const Position& at, CoordinateSystem coordinates) {
    if (coordinates == CoordinateSystem::wgs84_degrees) return std::abs(at.x) <= 180 && std::abs(at.y) <= 90;
    return std::abs(at.x) <= farthest_plane_metres && std::abs(at.y) <= farthest_plane_metres;
}

void read_place_enclosure(Fields fields, Place& place, std::optional<bool>& given) {
    if (fields.has("allowed")) given = fields.flag("allowed");
    place.enclosure_reason = fields.text("reason");
    place.enclosure_extra = fields.money("extra");
}

void read_place(Fields fields, CoordinateSystem coordinates, Reading& reading, Draft& draft) {
    Place place;
    place.id = fields.id("id");
    place.name = fields.text("name");
    if (place.name.empty()) place.name = place.id;
    const int kind = fields.choice("kind");
    if (kind >= 0) place.kind = place_kinds[kind];
    place.at = unknown_position;
    if (fields.has("at")) {
        place.at = read_position(fields.document(), fields.node("at"), coordinates, reading).value_or(unknown_position);
    }
    std::optional<bool> enclosure;
    if (fields.has("enclosure")) read_place_enclosure(fields.record("enclosure"), place, enclosure);
    const SourcePosition where = fields.position("id");
    if (place.id.empty()) return;
    if (!draft.places.add(place.id, static_cast<int>(draft.scenario.places.size()), where, reading)) return;
    draft.scenario.places.push_back(std::move(place));
    draft.place_positions.push_back(where);
    draft.enclosure_given.push_back(enclosure);
}

/// Number of the place or ground that a key names, or nothing and an error.
std::optional<int> resolve(Fields& fields, std::string_view key, const NameIndex& index, Reading& reading) {
    const std::string id = fields.id(key);
    if (id.empty()) return std::nullopt;
    const int number = index.find(id, fields.position(key), reading);
    if (number < 0) return std::nullopt;
    return number;
}

std::vector<Position> read_bends(Fields& fields, CoordinateSystem coordinates, Reading& reading) {
    std::vector<Position> bends;
    for (const NodeId item : fields.items("via"))
        bends.push_back(read_position(fields.document(), item, coordinates, reading).value_or(unknown_position));
    return bends;
}

/// Length along the polyline; an error when it is nothing or beyond measure. Nothing where a position is unknown.
Length length_along(const Segment& segment, CoordinateSystem coordinates, const SourcePosition& where,
                    Reading& reading) {
    const double metres = metres_along(segment.polyline, coordinates);
    if (!std::isfinite(metres)) return {};
    if (metres < 0.001) {
        reading.error(where,
                      fmt::format("segment {} has no length: it is under 1 mm from end to end", quoted(segment.id)),
                      "places apart from each other, or a length");
        return {};
    }
    if (metres > longest_segment_metres) {
        reading.error(where, fmt::format("segment {} is {:.0f} m long", quoted(segment.id), metres),
                      fmt::format("at most {:.0f} m", longest_segment_metres));
        return {};
    }
    return Length::from_metres(metres);
}

/// Where the segment runs: both places with the bends between them, and how long that is.
void read_course(Fields& fields, CoordinateSystem coordinates, Reading& reading, const Draft& draft, Segment& segment) {
    const auto& places = draft.scenario.places;
    const std::optional<int> from = resolve(fields, "from", draft.places, reading);
    const std::optional<int> to = resolve(fields, "to", draft.places, reading);
    const std::vector<Position> bends = read_bends(fields, coordinates, reading);
    if (fields.has("length")) segment.length = fields.length("length");
    if (!from || !to) return;
    segment.from = *from;
    segment.to = *to;
    if (segment.from == segment.to) {
        reading.error(fields.position("to"),
                      fmt::format("segment {} ends where it starts, at {}", quoted(segment.id),
                                  quoted(places[static_cast<std::size_t>(*from)].id)),
                      "two different places");
        return;
    }
    segment.polyline.push_back(places[static_cast<std::size_t>(*from)].at);
    segment.polyline.insert(segment.polyline.end(), bends.begin(), bends.end());
    segment.polyline.push_back(places[static_cast<std::size_t>(*to)].at);
    if (!fields.has("length")) segment.length = length_along(segment, coordinates, fields.position(), reading);
}

void read_segment(Fields fields, CoordinateSystem coordinates, Reading& reading, Draft& draft) {
    Segment segment;
    segment.id = fields.id("id");
    segment.name = fields.text("name");
    read_course(fields, coordinates, reading, draft, segment);
    segment.ground = resolve(fields, "ground", draft.grounds, reading).value_or(0);
    if (fields.has("duct")) {
        const DuctGiven duct = read_duct(fields.record("duct"), reading);
        segment.duct_room = duct.room;
        segment.duct_bore = duct.bore;
    }
    segment.pole_line = fields.flag("poles");
    segment.charges = read_charges(fields);
    segment.ban = fields.text("ban");
    if (segment.id.empty()) return;
    const int number = static_cast<int>(draft.scenario.segments.size());
    if (!draft.segments.add(segment.id, number, fields.position("id"), reading)) return;
    draft.scenario.segments.push_back(std::move(segment));
}

}  // namespace

DuctGiven read_duct(Fields fields, Reading& reading) {
    DuctGiven duct;
    if (!fields.has("room") && !fields.has("inner-diameter")) {
        reading.error(fields.position(), "neither 'room' nor 'inner-diameter' for a duct", "one of the two, or both");
    }
    if (fields.has("cables") && !fields.has("inner-diameter")) {
        reading.error(fields.position("cables"), "cables in a duct without its inner diameter",
                      "key 'inner-diameter', or only 'room'");
    }
    duct.room = fields.has("room") ? fields.whole("room") : most_room_in_a_duct;
    if (!fields.has("inner-diameter")) return duct;
    DuctBore bore;
    bore.inner_diameter_mm = fields.number("inner-diameter") * 1000;
    for (const NodeId item : fields.items("cables")) {
        Fields cable = fields.item("cables", item, "");
        const double diameter_mm = cable.number("diameter") * 1000;
        const int count = cable.whole("count");
        bore.cable_diameters_mm.insert(bore.cable_diameters_mm.end(), static_cast<std::size_t>(count), diameter_mm);
    }
    duct.bore = std::move(bore);
    return duct;
}

FixedCharge read_charge(Fields fields) {
    FixedCharge charge;
    charge.what = fields.text("what");
    charge.category = charge_categories[std::max(0, fields.choice("category"))];
    charge.amount = fields.money("amount");
    return charge;
}

std::vector<FixedCharge> read_charges(Fields& fields) {
    std::vector<FixedCharge> charges;
    for (const NodeId item : fields.items("charges")) {
        charges.push_back(read_charge(fields.item("charges", item, "")));
    }
    return charges;
}

std::optional<Position> read_position(const Document& document, NodeId node, CoordinateSystem coordinates,
                                      Reading& reading) {
    const bool degrees = coordinates == CoordinateSystem::wgs84_degrees;
    const std::string wanted = degrees ? "[longitude, latitude] in degrees" : "[x, y]";
    const std::vector<NodeId> parts = document.children(node);
    if (document.at(node).kind != NodeKind::sequence || parts.size() != 2) {
        reading.error(document.position(node),
                      fmt::format("position is {}", document.at(node).kind == NodeKind::sequence
                                                        ? fmt::format("a list of {}", parts.size())
                                                        : description(document.at(node))),
                      wanted);
        return std::nullopt;
    }
    const auto x = coordinate(document, parts[0], reading);
    const auto y = coordinate(document, parts[1], reading);
    if (!x || !y) return std::nullopt;
    const double scale = degrees ? 1.0 : 1.0 / site_units_per_metric(Unit::length, reading.feet);
    const Position at{*x * scale, *y * scale};
    if (!in_range(at, coordinates)) {
        reading.error(
            document.position(node), fmt::format("position [{}, {}] is out of range", *x, *y),
            degrees ? "longitude from -180 to 180 and latitude from -90 to 90" : "coordinates within 10000 km");
        return std::nullopt;
    }
    return at;
}

void read_places(Fields& map, CoordinateSystem coordinates, Reading& reading, Draft& draft) {
    for (const NodeId item : map.items("places"))
        read_place(Fields(reading, map.document(), item, place_record(), ""), coordinates, reading, draft);
}

void read_segments(Fields& map, CoordinateSystem coordinates, Reading& reading, Draft& draft) {
    for (const NodeId item : map.items("segments"))
        read_segment(Fields(reading, map.document(), item, segment_record(), ""), coordinates, reading, draft);
}

}  // namespace spadework::site_file
