#include "report/lookup.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace spadework::report {

const Place& place_at(const Scenario& scenario, PlaceIndex place) {
    return scenario.places[static_cast<std::size_t>(place)];
}

const Building& building_at(const Scenario& scenario, BuildingIndex building) {
    return scenario.buildings[static_cast<std::size_t>(building)];
}

const Segment& segment_at(const Scenario& scenario, SegmentIndex segment) {
    return scenario.segments[static_cast<std::size_t>(segment)];
}

const CableProduct& product_of(const Scenario& scenario, const PlannedCable& cable) {
    return scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
}

const OpticProduct& optic_of(const Scenario& scenario, const PlannedLink& link) {
    return scenario.catalogue.optics[static_cast<std::size_t>(link.optic)];
}

Way way_of(const Scenario& scenario, const Step& step) {
    return ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)];
}

std::string link_origin(const Scenario& scenario, const PlannedLink& link) {
    return link.from ? building_at(scenario, *link.from).id : "hub";
}

int trunk_strands(const Scenario& scenario, const Plan& plan, const PlannedEnclosure& enclosure) {
    int strands = 0;
    for (const int trunk : enclosure.trunks)
        strands += product_of(scenario, plan.cables[static_cast<std::size_t>(trunk)]).strands;
    return strands;
}

int adapters_of(const Scenario& scenario, const PlannedEnclosure& enclosure) {
    int adapters = 0;
    for (const Pieces& pieces : enclosure.products)
        adapters += scenario.catalogue.enclosures[static_cast<std::size_t>(pieces.product)].adapters * pieces.count;
    return adapters;
}

std::string products_in_words(const Scenario& scenario, const PlannedEnclosure& enclosure) {
    std::string text;
    for (const Pieces& pieces : enclosure.products) {
        text += fmt::format("{}{} x {}", text.empty() ? "" : ", ", pieces.count,
                            scenario.catalogue.enclosures[static_cast<std::size_t>(pieces.product)].id);
    }
    return text;
}

std::string ids_of(const Scenario& scenario, const std::vector<BuildingIndex>& buildings, const char* separator) {
    std::string text;
    for (const BuildingIndex building : buildings)
        text += (text.empty() ? "" : separator) + building_at(scenario, building).id;
    return text;
}

bool any_enclosure(const Comparison& comparison) {
    return std::any_of(comparison.layouts.begin(), comparison.layouts.end(), [](const LayoutResult& layout) {
        return layout.feasible() && !layout.plan->enclosures.empty();
    });
}

Length cable_ordered(const LayoutResult& result) {
    Length ordered;
    for (const auto& [strands, metres] : result.cable_by_strands)
        ordered += metres.ordered;
    return ordered;
}

const char* id_of(CableRole role) {
    switch (role) {
        case CableRole::home_run:
            return "home-run";
        case CableRole::trunk:
            return "trunk";
        case CableRole::drop:
            return "drop";
        case CableRole::hop:
            return "hop";
        case CableRole::closing:
            return "closing";
    }
    return "home-run";
}

const char* id_of(FindingSeverity severity) {
    switch (severity) {
        case FindingSeverity::note:
            return "note";
        case FindingSeverity::warning:
            return "warning";
        case FindingSeverity::error:
            return "error";
    }
    return "note";
}

const char* id_of(CauseKind kind) {
    switch (kind) {
        case CauseKind::job:
            return "job";
        case CauseKind::segment:
            return "segment";
        case CauseKind::cable:
            return "cable";
        case CauseKind::building:
            return "building";
        case CauseKind::enclosure:
            return "enclosure";
        case CauseKind::hub:
            return "hub";
    }
    return "job";
}

}  // namespace spadework::report
