#pragma once

#include <string_view>

#include "drawn_map/map_builder.hpp"
#include "drawn_map/reading.hpp"

namespace spadework::drawn_map {

/// Reads a table of places (CSV): one point a row, the first row naming the columns. Numbers may have a decimal comma
/// where the separator is none. Other columns become tags; rows without a place are told of and left out.
void read_table_of_places(std::string_view text, const ReadingOptions& options, MapBuilder& map);

}  // namespace spadework::drawn_map
