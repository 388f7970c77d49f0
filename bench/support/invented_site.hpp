#pragma once

// Invented sites of an asked size, as the text of a site file.

#include <cstdint>
#include <string>

#include "support/street_map.hpp"

namespace spadework::bench {

/// A site file (see scenarios/README.md) with a map as street_map() makes it and invented prices: cables of several
/// strand counts in steps of length, enclosures of several sizes, optics, gear, buildings with one link or several.
/// The same size and seed give the same bytes on every machine. Throws std::invalid_argument when the size is too
/// small.
std::string invented_site(const SiteSize& size, std::uint64_t seed);

/// Grounds, catalogue and labour of an invented site, as part of a site file.
const char* invented_prices();

}  // namespace spadework::bench
