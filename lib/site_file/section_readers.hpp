#pragma once

// One function for each section of a site file: from its mapping to plain values.

#include <string>
#include <vector>

#include "site_file/draft.hpp"
#include "site_file/fields.hpp"
#include "site_file/sources.hpp"

namespace spadework::site_file {

/// Grounds by name. Adds them to the draft and its index.
void read_grounds(const Section& section, Reading& reading, Draft& draft);
/// What using existing ducts, or poles, takes.
OpeningMethod read_existing_duct(Fields fields);
OpeningMethod read_pole_line(Fields fields);

/// Places and segments as the file lists them. Grounds must have been read.
void read_places(Fields& map, CoordinateSystem coordinates, Reading& reading, Draft& draft);
void read_segments(Fields& map, CoordinateSystem coordinates, Reading& reading, Draft& draft);

/// A duct that is already there, as it is given. Where only its inside is, the room is `most_room_in_a_duct` until
/// settle_duct_room().
inline constexpr int most_room_in_a_duct = 1000;
struct DuctGiven {
    std::optional<int> room;
    std::optional<DuctBore> bore;
};
DuctGiven read_duct(Fields fields, Reading& reading);

FixedCharge read_charge(Fields fields);
/// The list behind the key `charges`.
std::vector<FixedCharge> read_charges(Fields& fields);

/// What makes an area apart from where it is: the keys `use`, `ground`, `extra-per-length`, `charges` and
/// `bars-segments`. Grounds must have been read.
Area read_area_kind(Fields& fields, Reading& reading, const Draft& draft);
/// Areas as the file lists them. Grounds must have been read.
void read_areas(Fields& map, CoordinateSystem coordinates, Reading& reading, Draft& draft);
/// What is wrong with an area's border and holes; empty when nothing is.
std::string problem_of_rings(const std::vector<std::vector<Position>>& rings, CoordinateSystem coordinates);

/// The hub and the buildings. Places must have been read.
void read_hub(Fields fields, Reading& reading, Draft& draft);
void read_buildings(Fields& site, Reading& reading, Draft& draft);
std::vector<LinkDemand> read_links(Fields& fields);
std::vector<DeviceGroup> read_devices(Fields& fields);

Catalogue read_catalogue(Fields fields, Reading& reading);
Labour read_labour(Fields fields);
Rules read_rules(Fields fields, Reading& reading, Draft& draft);
Growth read_growth(Fields fields, Reading& reading, Draft& draft);

/// Whether the nearest place is near enough to be the one that a position means: within 1 km. An error otherwise.
bool is_near(double metres, const SourcePosition& where, Reading& reading);

/// A position [x, y] in metres or degrees, or nothing and an error.
std::optional<Position> read_position(const Document& document, NodeId node, CoordinateSystem coordinates,
                                      Reading& reading);

}  // namespace spadework::site_file
