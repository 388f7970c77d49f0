#pragma once

// One alternative each: what is not allowed, and the cheapest plan found without it.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "layout/design.hpp"
#include "layout/routed_layout.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"
#include "study/explanation.hpp"

namespace spadework {

/// What all jobs look at: the site, its comparison, and the plan to explain.
struct Explained {
    Explained(const Scenario& on, const Comparison& of, const LayoutResult& cheapest);

    const Scenario& scenario;
    const Comparison& comparison;
    const LayoutResult& best;
    Network network;
    std::optional<RoutedLayout> routes;  ///< The plan's; nothing where rerouting does not know the layout.
};

struct JobOutcome {
    bool interrupted = false;  ///< Not looked at, or not to its end.
    std::vector<std::string> violations;
};
using ExplanationJob = std::function<JobOutcome(const DesignLimits&)>;

/// The layout designed anew, with a bound, on a site that allows no enclosure where this one stands.
JobOutcome move_enclosure(const Explained& what, const DesignLimits& limits, EnclosureReason& reason);

/// The same with one enclosure fewer in all; home runs where it was the only one.
JobOutcome leave_out_enclosure(const Explained& what, const DesignLimits& limits, EnclosureReason& reason);

/// The building served from another point, or one of its own segments barred: its own cable laid anew with all else as
/// it is, and the layout sketched anew.
JobOutcome serve_otherwise(const Explained& what, const DesignLimits& limits, BuildingReason& reason);

/// The site without the building: the plan with its cable taken out, and the layout sketched anew.
JobOutcome leave_out_building(const Explained& what, const DesignLimits& limits, BuildingReason& reason);

}  // namespace spadework
