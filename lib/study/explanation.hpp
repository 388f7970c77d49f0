#pragma once

// Why the cheapest layout is as it is: for each enclosure and each building the next best alternative, and what leaving
// it out would come to. Every amount is the difference between the totals of two whole plans, both checked by the
// verifier.

#include <optional>
#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"
#include "study/study.hpp"
#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework {

/// Another plan, for a site on which something of the plan at hand is not allowed.
struct Alternative {
    bool looked_at = false;  ///< False where the work was stopped before.
    bool found = false;      ///< A whole plan, verified.
    std::string reason;      ///< Why there is none; "" when one was found.
    Money extra;             ///< Its total less that of the plan at hand; below 0 where it costs less.
    /// No plan that is so restricted has a smaller extra; empty where nothing is proved of them all.
    std::optional<Money> least_extra;
    [[nodiscard]] bool proved() const { return found && least_extra == extra; }
};

/// From where a building gets its cable.
struct Service {
    std::optional<PlaceIndex> enclosure;
    std::optional<BuildingIndex> building;  ///< The one before it in a chain. The hub where both are empty.
    std::optional<BuildingIndex> next;      ///< The one behind it in a chain; empty at its end.
    Length route;                           ///< Of its own cable, from there.
    friend bool operator==(const Service&, const Service&) = default;
};

struct EnclosureReason {
    PlaceIndex place = 0;
    int buildings_served = 0;
    Alternative elsewhere;                     ///< The best plan without an enclosure at this place.
    std::vector<PlaceIndex> places_elsewhere;  ///< Where that plan has its enclosures.
    Alternative left_out;                      ///< The best plan without it and with one enclosure fewer.
    std::vector<PlaceIndex> places_left_out;
};

struct BuildingReason {
    BuildingIndex building = 0;
    Service service;
    Length own_trench;     ///< Dug along its route for no other cable.
    Length shared_trench;  ///< Dug along its route and carrying other cables too.
    /// The cheapest plan found in which the building is served from elsewhere, or one of the segments that only its
    /// cable uses is not used at all. `least_extra` is given where these are all the ways there are.
    Alternative otherwise;
    Service service_otherwise;
    std::optional<SegmentIndex> segment_avoided;  ///< Where that plan came of not using a segment.
    Alternative left_out;                         ///< The site without the building: `extra` is below 0.
};

struct Explanation {
    LayoutKind layout = LayoutKind::home_runs;
    std::vector<EnclosureReason> enclosures;  ///< By place.
    std::vector<BuildingReason> buildings;    ///< By building.
    bool of_one_strand_use = false;           ///< Only plans with the cheapest one's strand use were looked at.
    bool interrupted = false;                 ///< Something was not looked at, or not to its end.
    std::vector<std::string> violations;      ///< Bugs found by the verifier; nothing may be shown when there are any.
};

/// Explains the cheapest layout of a comparison of that scenario; nothing where no layout is feasible. options.seconds
/// are for this alone; options.layouts is not looked at.
std::optional<Explanation> explain(const Scenario& scenario, const Comparison& comparison, const StudyOptions& options);

}  // namespace spadework
