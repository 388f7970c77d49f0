#include "layout/design.hpp"

#include "layout/designs.hpp"
#include "layout/nearest_plan.hpp"

namespace spadework {

Design infeasible(LayoutKind layout, const std::string& reason) {
    Design design;
    design.layout = layout;
    design.reason = reason;
    return design;
}

Design impossible(LayoutKind layout, const std::string& reason) {
    Design design = infeasible(layout, reason);
    design.impossible = true;
    return design;
}

namespace {

Design designed(LayoutKind layout, const Scenario& scenario, const DesignLimits& limits) {
    switch (layout) {
        case LayoutKind::home_runs:
            return design_home_runs(scenario, limits);
        case LayoutKind::trunk_one:
            return design_trunk_one(scenario, limits);
        case LayoutKind::trunk:
            return design_trunk(scenario, limits);
        case LayoutKind::mixed:
            return design_mixed(scenario, limits);
        case LayoutKind::daisy_chain:
            return design_daisy_chain(scenario, limits);
        case LayoutKind::ring:
            return design_ring(scenario, limits);
    }
    return infeasible(layout, "no such layout");
}

}  // namespace

Design design(LayoutKind layout, const Scenario& scenario, const DesignLimits& limits) {
    Design design = designed(layout, scenario, limits);
    const bool sketch = limits.target_gap >= 1;
    if (!design.plan && !design.nearest && !sketch) design.nearest = nearest_plan(layout, scenario);
    return design;
}

}  // namespace spadework
