#pragma once

// Sites made from networks in the STP text format of the Steiner tree benchmark collections (SteinLib; DIMACS).

#include <optional>
#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

struct StpEdge {
    int from = 0;  ///< From 0.
    int to = 0;
    double weight = 0;
};
struct StpNetwork {
    int vertices = 0;
    std::vector<StpEdge> edges;
    std::vector<int> terminals;
};

/// Nothing when there is no such file.
std::optional<StpNetwork> read_stp(const std::string& path);

/// Lines of a table of values split at tabs; lines that begin with # and the heading left out. Empty when there is no
/// such file.
std::vector<std::vector<std::string>> read_table(const std::string& path);

/// How a network's weights become metres, and what a metre costs.
struct StpPrices {
    double metres_per_weight = 1;
    double trench_cents_per_metre = 0;
    double cable_cents_per_metre = 0;
};

/// The hub at the first terminal, a building at every other; only trenches and cables cost anything.
Scenario site_of(const StpNetwork& network, const StpPrices& prices);

}  // namespace spadework
