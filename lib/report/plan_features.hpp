#pragma once

// What a plan puts on the map, with its facts: the one list that every map format is written from.

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"
#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework::report {

/// One fact of a feature. Lengths are in metres in every format, and their names say so: "length_m".
struct Fact {
    std::string name;
    std::variant<std::string, std::int64_t, Length, Money> value;
};

enum class FeatureGroup { places, trenches, cables };

struct PlanFeature {
    FeatureGroup group = FeatureGroup::places;
    std::string kind;   ///< "hub", "building", "enclosure", "place", "trench", "existing-duct", "pole-line", "cable".
    std::string title;  ///< For people: a name where there is one, or an id.
    std::vector<Position> points;  ///< One of a place; of a line all, fewer than two where it has no length.
    std::vector<Fact> facts;
};

/// Hub, buildings, enclosures and places passed; then segments in use; then cables. The result must be feasible.
std::vector<PlanFeature> plan_features(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework::report
