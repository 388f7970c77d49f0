#pragma once

// Build now, connect what comes later: trunks chosen with and without a thought for the buildings that may come, and
// both judged by the same expected total.
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
    PlaceIndex from = 0;        ///< Where its cable begins.
};

/// The trunk to one enclosure.
struct TrunkChoice {
    PlaceIndex place = 0;      ///< Of the enclosure.
    int product = 0;           ///< Index into catalogue.cables.
    bool spare_duct = false;   ///< One is laid beside it.
    double chance_enough = 0;  ///< That its strands last to the horizon.
};

/// One plan with what is expected of it. All money but `now` and `total` is direct cost.
struct GrowthPlan {
    std::vector<TrunkChoice> choices;  ///< One an enclosure; several are a heuristic.
    bool routes_for_growth = false;    ///< Laid as if who is likely to come were there; else the cheapest today.
    Money now;                         ///< What the customer pays today, spare ducts included: the bill's total.
    Money drops;                       ///< Expected for buildings that come.
    Money trunks;                      ///< Expected for further trunks when strands run out.
    Money later;                       ///< Both, with contingency and tax.
    [[nodiscard]] Money total() const { return now + later; }
    std::vector<FutureDrop> future;  ///< In the order of growth.buildings.
    [[nodiscard]] PlaceIndex place() const { return choices.front().place; }
    /// That the strands of every trunk last to the horizon, as if they did not depend on each other.
    [[nodiscard]] double chance_enough() const;
};

struct GrowthStudy {
    std::string reason;              ///< Why there is no study; "" when there is one.
    std::vector<GrowthPlan> places;  ///< The best at each place, and with several enclosures, by expected total.
    GrowthPlan blind;                ///< The cheapest of today among all that are judged, as it would be built.
    [[nodiscard]] const GrowthPlan& knowing() const { return places.front(); }
    /// What it is worth to know of the growth when building.
    [[nodiscard]] Money value() const { return blind.total() - knowing().total(); }
    std::optional<LayoutResult> plan;     ///< The plan that knows, in full; spare ducts are lines of its bill alone.
    bool interrupted = false;             ///< Not every place was worked out.
    int replanned = 0;                    ///< Places where routes were laid out anew for who is likely to come.
    std::vector<std::string> violations;  ///< Bugs found by the verifier; nothing may be shown when there are any.
};

/// Judges the cheapest plan of today at every allowed place, with every trunk size that meets the policy, with and
/// without a spare duct: exact over these. At the places that come out best the routes are laid out anew, as if the
/// buildings that are likely to come were there, and the better plan counts. `found` are plans of a comparison: of
/// these, plans with several enclosures are judged too, each trunk by itself for the buildings that it serves and those
/// that would be connected there, which is a heuristic.
GrowthStudy plan_for_growth(const Scenario& scenario, const EnclosureStudy& places,
                            const std::vector<LayoutResult>& found = {});

}  // namespace spadework
