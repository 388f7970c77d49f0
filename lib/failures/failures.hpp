#pragma once

// What every single failure takes down, how long buildings are dark for it in a year, and what would help.

#include <optional>
#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

enum class FailureKind { hub, segment_cut, enclosure, building_gear };

/// "hub gear", "segment cut", "enclosure", "building gear".
const char* name_of(FailureKind kind);

/// One thing that can fail, and the buildings it takes down.
struct Failure {
    FailureKind kind = FailureKind::segment_cut;
    std::int32_t index = 0;  ///< Segment, enclosure of the plan, or building; 0 for the hub.
    double per_year = 0;     ///< How often; a segment's by its length.
    double repair_hours = 0;
    std::vector<BuildingIndex> lost;  ///< Ascending. A building whose own gear fails is lost with it.
    int cables = 0;                   ///< Cables in a segment.
    [[nodiscard]] double minutes_per_year() const { return per_year * repair_hours * 60; }
};

/// A second way around a segment whose cut is the worst.
struct SecondWay {
    SegmentIndex around = 0;
    /// Segments to open beside those open already, from the cut-off side. Empty: the map has no other way.
    std::vector<SegmentIndex> segments;
    Length length;  ///< Of those.
    Money opening;  ///< Groundworks, set-up and fixed charges of those, before contingency and tax.
    /// Where the map has no other way: the two places nearest to each other on either side, and how far apart.
    PlaceIndex from = 0;
    PlaceIndex to = 0;
    double metres_apart = 0;
};

struct FailureStudy {
    std::vector<Failure> failures;        ///< Most buildings lost first; ties by kind and index.
    std::vector<double> outage_minutes;   ///< A year, for each building of the scenario.
    double worst_minutes = 0;             ///< Largest of them.
    double mean_minutes = 0;              ///< Mean over buildings.
    std::optional<SecondWay> second_way;  ///< For the worst cut that takes down two buildings or more.
};

/// Looks at every segment in use, every enclosure, every building's gear and the hub, one failure at a time: buildings
/// are flooded from the hub over the links that are left. Expected minutes a year are the sum, over all that takes a
/// building down, of rate times repair time; two failures at once are left out.
FailureStudy study_failures(const Scenario& scenario, const Plan& plan);

}  // namespace spadework

// Lists that many sources copy: compiled once, in failures.cpp.
extern template class std::vector<spadework::Failure>;
