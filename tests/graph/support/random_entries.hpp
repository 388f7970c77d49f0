#pragma once

// Prices of entries into sets of stops, at random.

#include <cstddef>
#include <random>
#include <vector>

#include "graph/chain_certificate.hpp"

namespace spadework::graph::testing {

/// Up to three sets, each of half of the stops or so.
inline std::vector<EntryPrice> random_entries(std::mt19937& random, std::size_t stops) {
    std::vector<EntryPrice> entries;
    for (auto many = random() % 4; many > 0; --many) {
        EntryPrice entry{{}, static_cast<Cost>(random() % 100)};
        for (std::size_t s = 0; s < stops; ++s) {
            if (random() % 2 == 0) entry.stops.push_back(static_cast<std::int32_t>(s));
        }
        if (!entry.stops.empty()) entries.push_back(std::move(entry));
    }
    return entries;
}

}  // namespace spadework::graph::testing
