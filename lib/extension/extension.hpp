#pragma once

// A building more, or fewer, on a site that was built: the cheapest way found to serve what is new without touching
// what is there.

#include <optional>
#include <string>
#include <vector>

#include "checks/checks.hpp"
#include "costing/bill.hpp"
#include "extension/assembling.hpp"
#include "extension/priced_way.hpp"
#include "extension/untouched.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "strand_map/strand_map.hpp"
#include "units/money.hpp"

namespace spadework {

/// What was built, on the site as it is now. Buildings of the site that no link leads to are new; links to buildings
/// that the site no longer has have been taken out.
struct BuiltPlan {
    Plan plan;
    std::vector<KeptStrand> strands;      ///< As they were plugged, links to buildings that are gone taken out.
    std::vector<KeptStrand> before = {};  ///< With these links; empty where no building is gone.
};

/// How one further building is served.
struct Addition {
    BuildingIndex building = 0;
    Source source;
    PlaceIndex from = 0;
    Length route;
    Length shared;  ///< Of its route, opened together with other further cables.
};

/// What may be done to what was built.
struct ExtensionRules {
    bool may_interrupt = false;  ///< Links may be taken down for a while, where that is cheaper.
};

/// A way that takes links down for a while, and is not taken.
struct InterruptingWay {
    Interruption interruption;
    Money total;  ///< What the customer would pay.
};

/// An extension that was looked at and would have cost more, or cannot be built.
struct OtherWay {
    std::string what;            ///< "every new building by a cable of its own from the hub".
    std::optional<Money> total;  ///< What the customer would pay; nothing where it cannot be built.
    std::string reason;          ///< Why it cannot.
};

struct Extension {
    bool feasible = false;
    std::string reason;  ///< Why not.
    ExtendedPlan extended;
    std::vector<Addition> additions;
    Bill bill;
    Money total;
    /// No extension that touches nothing, and in which every new building has a cable of its own, from the hub or from
    /// an enclosure that stands, costs less; proved as bounds on layouts are. 0 where a cable lies there dark for one
    /// of them.
    Money bound;
    bool bound_covers_all = false;  ///< The rules allow no further enclosure, so that there is no other way.
    std::vector<OtherWay> others;
    std::optional<Interruption> interruption;  ///< What is down while this one is made; nothing where no link is.
    /// The cheapest other that takes links down: dearer, or not allowed. Where this one does, nothing.
    std::optional<InterruptingWay> interrupting;
    Length new_trench;      ///< Opened for the first time.
    Length opened_again;    ///< Closed trenches of the plan that are opened once more.
    Length reused;          ///< Existing ducts and pole lines that the new cables use.
    Length cable_ordered;   ///< Of the new cables.
    int strands_taken = 0;  ///< Of built trunks that were dark.
    StrandMap strand_map;
    std::vector<LinkBudget> link_budgets;
    Findings findings;
    /// Links that are not interrupted. Those that are, and are the same from port to port again, are in `restored`.
    Untouched untouched;
    Untouched restored;
    std::vector<std::string> violations;  ///< Bugs found by separate code; nothing may be shown when there are any.
};

/// Serves every building that the site has and the plan does not, without touching a link unless the rules allow it.
Extension extend(const Scenario& scenario, const BuiltPlan& built, const ExtensionRules& rules = {});

/// What it would cost to serve them as if trunks always had dark strands and enclosures adapters: for expected costs,
/// where running out of strands is counted apart. No further enclosures are looked at.
struct CostOfAdding {
    Money direct;                ///< Before contingency and tax.
    bool through_trunk = false;  ///< At least one takes strands of a trunk.
    Length opened;               ///< Trench dug, again or for the first time.
    PlaceIndex from = 0;         ///< Where the first one's cable begins.
};
/// Nothing where they cannot be served.
std::optional<CostOfAdding> cost_of_adding(const Scenario& scenario, const Plan& built);

}  // namespace spadework
