#pragma once

// How many metres a plan digs, reuses and orders.

#include <map>
#include <string>

#include "comparison/comparison.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// "open-cut", "plough", "narrow-trench", "bore", "pole-line", "existing-duct": as in site files.
const char* id_of(MethodKind kind);

/// Whether the way needs digging; false for an existing duct and a pole line.
bool is_dug(MethodKind kind);

/// Metres of the segments a plan uses. A segment used in two ways counts once for each. Every sum over a map equals
/// trench + reused.
struct TrenchMetres {
    Length trench;
    Length reused;
    std::map<std::string, Length> by_ground;
    std::map<std::string, Length> by_method;
};
TrenchMetres trench_metres(const Scenario& scenario, const Plan& plan);

/// Metres of the plan's cables by the strand count of their product.
std::map<int, CableMetres> cable_metres(const Scenario& scenario, const Plan& plan);

}  // namespace spadework
