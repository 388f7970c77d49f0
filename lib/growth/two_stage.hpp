#pragma once

// Build now, connect what comes later: a trunk with one enclosure, chosen with and without a thought for the buildings
// that may come, and both judged by the same expected total.
//
// The second stage is simple given the first: each building that comes is connected on its own, in its year, to the
// plan as it then stands, with closed trenches opened again. So what is expected for it is its chance times its
// discounted cost, and these add up without trying outcomes one by one. Running out of strands is not so simple, as it
// depends on how many come: that takes the whole distribution (see strands/later_trunks.hpp).

#include <optional>
#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"
#include "strands/strand_study.hpp"
#include "study/study.hpp"
#include "units/money.hpp"

namespace spadework {

/// A named building that may come, connected to one plan.
struct FutureDrop {
    int future = 0;             ///< Index into growth.buildings.
    std::string left_out;       ///< Why it is not counted; "" where it is.
    Money cost;                 ///< Direct, in the prices of today, once it comes.
    Money expected;             ///< Chance times discounted cost.
    bool through_trunk = true;  ///< It takes strands of the trunk; by a cable of its own from the hub when false.
    Length opened;              ///< Trench to dig then, again or for the first time.
};

/// One plan with what is expected of it. All money but `now` and `total` is direct cost.
struct GrowthPlan {
    PlaceIndex place = 0;     ///< Of the enclosure.
    int product = 0;          ///< Of the trunk: index into catalogue.cables.
    bool spare_duct = false;  ///< One is laid beside the trunk.
    Money now;                ///< What the customer pays today, spare duct included.
    Money drops;              ///< Expected for buildings that come.
    Money trunks;             ///< Expected for further trunks when strands run out.
    Money later;              ///< Both, with contingency and tax.
    [[nodiscard]] Money total() const { return now + later; }
    std::vector<FutureDrop> future;  ///< In the order of growth.buildings.
    double chance_enough = 0;        ///< That the trunk's strands last to the horizon.
};

struct GrowthStudy {
    std::string reason;              ///< Why there is no study; "" when there is one.
    std::vector<GrowthPlan> places;  ///< The best trunk at each place, by expected total, ties by place.
    GrowthPlan blind;                ///< The cheapest of today, as it would be built.
    [[nodiscard]] const GrowthPlan& knowing() const { return places.front(); }
    /// What it is worth to know of the growth when building.
    [[nodiscard]] Money value() const { return blind.total() - knowing().total(); }
    std::optional<LayoutResult> plan;  ///< The plan that knows, in full; without the spare duct, which is no cable's.
    bool interrupted = false;          ///< Not every place was worked out.
    std::vector<std::string> violations;  ///< Bugs found by the verifier; nothing may be shown when there are any.
};

/// Judges the cheapest plan of today at every allowed place, with every trunk size that meets the policy, with and
/// without a spare duct: exact over these. The routes at each place are those that are cheapest today.
GrowthStudy plan_for_growth(const Scenario& scenario, const EnclosureStudy& places);

}  // namespace spadework
