#pragma once

// One function for each layout. A new layout is one more file beside these, a line here and a line in design.cpp.

#include "layout/design.hpp"

namespace spadework {

Design design_home_runs(const Scenario& scenario, const DesignLimits& limits);
Design design_trunk_one(const Scenario& scenario, const DesignLimits& limits);
Design design_trunk(const Scenario& scenario, const DesignLimits& limits);
Design design_mixed(const Scenario& scenario, const DesignLimits& limits);
Design design_daisy_chain(const Scenario& scenario, const DesignLimits& limits);

/// Chains closed back to the hub: each ring leaves the hub, visits at most rules.hop_limit buildings and returns. Every
/// building has links on both sides, the hub has those of both ends of every ring. Where the map has a second way the
/// ring takes it: a cut of one segment takes down only buildings that the map itself leaves without a way to the hub
/// then (see rings_keep_apart). Where the map leaves no choice, notes say so. The plan is found by a heuristic; the
/// bound is proved for exactly these rings. Rings are as many and as full as is cheapest.
Design design_ring(const Scenario& scenario, const DesignLimits& limits);

/// A design that says why there is no plan.
Design infeasible(LayoutKind layout, const std::string& reason);

/// The same where the least figures of the site prove that there is none.
Design impossible(LayoutKind layout, const std::string& reason);

}  // namespace spadework
