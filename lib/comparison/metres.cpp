#include "comparison/metres.hpp"

#include "rates/opening_rates.hpp"

namespace spadework {

const char* id_of(MethodKind kind) {
    switch (kind) {
        case MethodKind::open_cut:
            return "open-cut";
        case MethodKind::plough:
            return "plough";
        case MethodKind::narrow_trench:
            return "narrow-trench";
        case MethodKind::bore:
            return "bore";
        case MethodKind::pole_line:
            return "pole-line";
        case MethodKind::existing_duct:
            return "existing-duct";
    }
    return "open-cut";
}

bool is_dug(MethodKind kind) {
    return kind != MethodKind::pole_line && kind != MethodKind::existing_duct;
}

TrenchMetres trench_metres(const Scenario& scenario, const Plan& plan) {
    TrenchMetres metres;
    for (const Step& step : plan.trenches) {
        const Length length = scenario.segments[static_cast<std::size_t>(step.segment)].length;
        const Way way = ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)];
        (is_dug(way.method->kind) ? metres.trench : metres.reused) += length;
        metres.by_ground[way.ground] += length;
        metres.by_method[id_of(way.method->kind)] += length;
    }
    return metres;
}

std::map<int, CableMetres> cable_metres(const Scenario& scenario, const Plan& plan) {
    std::map<int, CableMetres> metres;
    for (const PlannedCable& cable : plan.cables) {
        CableMetres& sum = metres[scenario.catalogue.cables[static_cast<std::size_t>(cable.product)].strands];
        sum.route += cable.lengths.route;
        sum.with_slack += cable.lengths.with_slack;
        sum.ordered += cable.lengths.ordered;
    }
    return metres;
}

}  // namespace spadework
