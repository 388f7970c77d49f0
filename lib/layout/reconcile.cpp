#include "layout/reconcile.hpp"

#include <algorithm>

#include "layout/assembly.hpp"

namespace spadework {

namespace {

Design* find(std::vector<Design>& designs, LayoutKind layout) {
    const auto found =
        std::find_if(designs.begin(), designs.end(), [layout](const Design& d) { return d.layout == layout; });
    return found == designs.end() ? nullptr : &*found;
}

void take_over_plan(const Scenario& scenario, const Design& narrow, Design& wide) {
    if (!narrow.plan) return;
    if (wide.plan && cost_to_build(scenario, *wide.plan) <= cost_to_build(scenario, *narrow.plan)) return;
    wide.plan = narrow.plan;
    wide.plan->layout = wide.layout;
    wide.notes = narrow.notes;
    wide.reason.clear();
}

void take_over_bound(const Design& wide, Design& narrow) {
    if (wide.direct_bound <= narrow.direct_bound) return;
    narrow.direct_bound = wide.direct_bound;
    narrow.certificate = {};
    narrow.certificate.contained_in = wide.layout;
}

}  // namespace

void reconcile(const Scenario& scenario, std::vector<Design>& designs) {
    for (const auto& [narrow_kind, wide_kind] : contained_in) {
        Design* narrow = find(designs, narrow_kind);
        Design* wide = find(designs, wide_kind);
        if (narrow == nullptr || wide == nullptr) continue;
        take_over_plan(scenario, *narrow, *wide);
        take_over_bound(*wide, *narrow);
    }
}

std::optional<Design> trunk_within(const Design& mixed) {
    if (!mixed.plan || mixed.plan->enclosures.empty()) return std::nullopt;
    const auto is_home_run = [](const PlannedCable& cable) { return cable.role == CableRole::home_run; };
    if (std::ranges::any_of(mixed.plan->cables, is_home_run)) return std::nullopt;
    Design trunk = mixed;
    trunk.layout = LayoutKind::trunk;
    trunk.plan->layout = LayoutKind::trunk;
    trunk.certificate = {};
    trunk.certificate.contained_in = LayoutKind::mixed;
    return trunk;
}

}  // namespace spadework
