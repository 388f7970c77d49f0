#pragma once

// From routes to a complete plan: cables chosen and cut, enclosures fitted, links lit, gear placed.

#include <optional>
#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// A plan, or why the routes cannot be made into one.
struct Assembly {
    std::optional<Plan> plan;
    std::string reason;
    std::vector<std::string> notes;
};

/// Chooses the cheapest products for the given routes. Where an existing duct is given more cables than it has room
/// for, the later cables (trunks first, then by building) take the cheapest other way of that segment.
Assembly assemble(const Scenario& scenario, const RoutedLayout& routed);

/// What the trenches, cables, enclosures, optics and gear of a plan cost, before rounding rules of a bill: for choosing
/// among plans of one layout. The bill itself is costing's.
Money cost_that_differs(const Scenario& scenario, const Plan& plan);

}  // namespace spadework
