#pragma once

// One function for each layout. A new layout is one more file beside these, a line here and a line in design.cpp.

#include "layout/design.hpp"

namespace spadework {

Design design_home_runs(const Scenario& scenario, const DesignLimits& limits);
Design design_trunk_one(const Scenario& scenario, const DesignLimits& limits);
Design design_trunk(const Scenario& scenario, const DesignLimits& limits);
Design design_mixed(const Scenario& scenario, const DesignLimits& limits);
Design design_daisy_chain(const Scenario& scenario, const DesignLimits& limits);

/// A design that says why there is no plan.
Design infeasible(LayoutKind layout, const std::string& reason);

}  // namespace spadework
