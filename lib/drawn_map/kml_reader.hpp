#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "drawn_map/map_builder.hpp"

namespace spadework::drawn_map {

/// Takes the address of a link to another KML file; tells whether it was taken.
using KmlLinkTaker = std::function<bool(const std::string& address)>;

/// Reads KML 2.0 to 2.3, whatever prefix its namespace has. ExtendedData becomes tags, and so do a description, an
/// address and a phone number; "folder" is the names of the folders around a placemark, "Campus/Paths". Links go to
/// `take_link`; those it does not take are counted as left out.
void read_kml(std::string_view text, const KmlLinkTaker& take_link, MapBuilder& map);

}  // namespace spadework::drawn_map
