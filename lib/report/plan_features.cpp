#include "report/plan_features.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "comparison/metres.hpp"
#include "report/lookup.hpp"

namespace spadework::report {

namespace {

PlanFeature place_feature(const char* kind, const std::string& title, const Position& at, std::vector<Fact> facts) {
    return {FeatureGroup::places, kind, title, {at}, std::move(facts)};
}

PlanFeature hub_feature(const Scenario& scenario) {
    const Place& hub = place_at(scenario, scenario.hub.place);
    return place_feature("hub", hub.name.empty() ? hub.id : hub.name, hub.at, {{"id", hub.id}, {"name", hub.name}});
}

PlanFeature building_feature(const Scenario& scenario, const Building& building) {
    const Place& place = place_at(scenario, building.place);
    return place_feature("building", building.name.empty() ? building.id : building.name, place.at,
                         {{"id", building.id}, {"name", building.name}, {"place", place.id}});
}

PlanFeature enclosure_feature(const Scenario& scenario, const Plan& plan, const PlannedEnclosure& enclosure) {
    const Place& place = place_at(scenario, enclosure.place);
    return place_feature("enclosure", "Enclosure at " + (place.name.empty() ? place.id : place.name), place.at,
                         {{"place", place.id},
                          {"products", products_in_words(scenario, enclosure)},
                          {"adapters", std::int64_t{adapters_of(scenario, enclosure)}},
                          {"strands", std::int64_t{trunk_strands(scenario, plan, enclosure)}},
                          {"serves", ids_of(scenario, enclosure.serves, ", ")}});
}

/// Ends of the segments in use that are not in `named`.
void add_passed(const Scenario& scenario, const Plan& plan, const std::set<PlaceIndex>& named,
                std::vector<PlanFeature>& features) {
    std::set<PlaceIndex> passed;
    for (const Step& step : plan.trenches) {
        passed.insert(segment_at(scenario, step.segment).from);
        passed.insert(segment_at(scenario, step.segment).to);
    }
    for (const PlaceIndex index : passed) {
        if (named.contains(index)) continue;
        const Place& place = place_at(scenario, index);
        features.push_back(place_feature("place", place.id, place.at, {{"id", place.id}}));
    }
}

void add_places(const Scenario& scenario, const Plan& plan, std::vector<PlanFeature>& features) {
    std::set<PlaceIndex> named = {scenario.hub.place};
    features.push_back(hub_feature(scenario));
    for (const Building& building : scenario.buildings) {
        named.insert(building.place);
        features.push_back(building_feature(scenario, building));
    }
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        named.insert(enclosure.place);
        features.push_back(enclosure_feature(scenario, plan, enclosure));
    }
    add_passed(scenario, plan, named, features);
}

void add_trenches(const Scenario& scenario, const Plan& plan, std::vector<PlanFeature>& features) {
    std::map<Step, std::int64_t> cables;
    for (const PlannedCable& cable : plan.cables) {
        for (const Step& step : cable.steps)
            ++cables[step];
    }
    for (const Step& step : plan.trenches) {
        const Segment& segment = segment_at(scenario, step.segment);
        const Way way = way_of(scenario, step);
        features.push_back({FeatureGroup::trenches,
                            is_dug(way.method->kind) ? "trench" : id_of(way.method->kind),
                            segment.name.empty() ? segment.id : segment.name,
                            segment.polyline,
                            {{"segment", segment.id},
                             {"ground", way.ground},
                             {"method", way.method->id},
                             {"depth_m", way.method->depth},
                             {"length_m", segment.length},
                             {"cost", way.opening},
                             {"cables", cables[step]}}});
    }
}

/// The cable's way as one line, each segment turned as it is passed.
std::vector<Position> line_of(const Scenario& scenario, const PlannedCable& cable) {
    std::vector<Position> line;
    PlaceIndex at = cable.from;
    for (const Step& step : cable.steps) {
        const Segment& segment = segment_at(scenario, step.segment);
        std::vector<Position> part = segment.polyline;
        if (segment.from != at) std::reverse(part.begin(), part.end());
        at = segment.from == at ? segment.to : segment.from;
        const bool joins = !line.empty() && !part.empty() && line.back() == part.front();
        line.insert(line.end(), part.begin() + (joins ? 1 : 0), part.end());
    }
    return line;
}

void add_cables(const Scenario& scenario, const Plan& plan, std::vector<PlanFeature>& features) {
    for (const PlannedCable& cable : plan.cables) {
        features.push_back({FeatureGroup::cables,
                            "cable",
                            cable.id,
                            line_of(scenario, cable),
                            {{"id", cable.id},
                             {"role", id_of(cable.role)},
                             {"product", product_of(scenario, cable).id},
                             {"strands", std::int64_t{product_of(scenario, cable).strands}},
                             {"from", place_at(scenario, cable.from).id},
                             {"to", place_at(scenario, cable.to).id},
                             {"route_m", cable.lengths.route},
                             {"ordered_m", cable.lengths.ordered}}});
    }
}

}  // namespace

std::vector<PlanFeature> plan_features(const Scenario& scenario, const LayoutResult& result) {
    std::vector<PlanFeature> features;
    add_places(scenario, *result.plan, features);
    add_trenches(scenario, *result.plan, features);
    add_cables(scenario, *result.plan, features);
    return features;
}

}  // namespace spadework::report
