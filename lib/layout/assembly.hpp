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
    /// Where no product of the catalogue carries a link, serves a building or fits the hub: the plan with the products
    /// that fall short least (no gear at the hub), for checks to say by how much.
    std::optional<Plan> nearest;
    std::vector<std::string> notes;
};

/// Chooses the cheapest products for the given routes. Where an existing duct is given more cables than it has room
/// for, the later cables (trunks first, then by building) take the cheapest other way of that segment.
Assembly assemble(const Scenario& scenario, const RoutedLayout& routed);

/// Direct cost of a plan up to the rounding of a bill's lines: for choosing among plans. The bill itself is costing's.
Money cost_to_build(const Scenario& scenario, const Plan& plan);

/// What one cable pays for ducts and pulling along its way, each stretch rounded to a minor unit.
Money passage_cost(const Scenario& scenario, const std::vector<Step>& steps);

}  // namespace spadework
