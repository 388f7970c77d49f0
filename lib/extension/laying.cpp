#include "extension/laying.hpp"

#include <set>
#include <string>

#include "layout/cable_pieces.hpp"
#include "rates/cable_rates.hpp"

namespace spadework {

namespace {

std::string unused_id(const Plan& plan, const std::string& wanted) {
    std::set<std::string> taken;
    for (const PlannedCable& cable : plan.cables)
        taken.insert(cable.id);
    std::string id = wanted;
    for (int n = 2; taken.contains(id); ++n)
        id = wanted + "-" + std::to_string(n);
    return id;
}

struct Measure {
    Length length;
    int handholes = 0;
};

Measure measured(const Scenario& scenario, const Route& route) {
    Measure way;
    PlaceIndex at = route.from;
    for (const Step& step : route.steps) {
        const Segment& segment = scenario.segments[static_cast<std::size_t>(step.segment)];
        way.length += segment.length;
        at = segment.from == at ? segment.to : segment.from;
        if (at != route.to && scenario.places[static_cast<std::size_t>(at)].kind == PlaceKind::handhole)
            ++way.handholes;
    }
    return way;
}

}  // namespace

std::optional<std::vector<int>> lay_cables(const Scenario& scenario, ExtendedPlan& extended, const Route& route,
                                           const Load& load, PlannedCable model) {
    const Measure way = measured(scenario, route);
    const auto pieces = pieces_for(scenario, load.need, load.links, way.length);
    if (!pieces) return std::nullopt;
    std::vector<int> cable_of_link(static_cast<std::size_t>(load.links), -1);
    model.from = route.from;
    model.to = route.to;
    model.steps = route.steps;
    std::vector<PlannedCable>& cables = extended.plan.cables;
    const std::string wanted = model.id;
    for (const CablePiece& piece : *pieces) {
        PlannedCable cable = model;
        cable.id = unused_id(extended.plan, wanted);
        cable.product = piece.product;
        cable.need = piece.need;
        cable.lengths = cable_lengths(scenario.catalogue.cables[static_cast<std::size_t>(piece.product)], way.length,
                                      way.handholes, scenario.rules);
        const int index = static_cast<int>(cables.size());
        extended.cables.push_back(index);
        for (const int link : piece.links)
            cable_of_link[static_cast<std::size_t>(link)] = index;
        cables.push_back(std::move(cable));
    }
    return cable_of_link;
}

}  // namespace spadework
