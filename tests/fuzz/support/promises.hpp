#pragma once

#include <string>
#include <string_view>

#include "diagnostics/diagnostic.hpp"

namespace spadework::fuzz {

/// Ends the program, saying what is not as promised, unless it is.
void require(bool kept, const char* promise);

/// There is a result or an error, never both; each problem names a file and is one line.
void require_clean(bool has_result, const Diagnostics& diagnostics);

/// Reads a map as degrees and as metres, twice each, and holds the result to what lib/drawn_map promises.
void read_both_ways(const std::string& name, std::string_view bytes);

/// A KMZ file with these bytes as its map.
std::string archive_around(std::string_view bytes);

}  // namespace spadework::fuzz
