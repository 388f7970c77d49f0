#pragma once

// One way of serving all that is new, priced: what extensions are chosen among.

#include <optional>
#include <string>
#include <vector>

#include "checks/checks.hpp"
#include "costing/bill.hpp"
#include "extension/assembling.hpp"
#include "extension/routed_extension.hpp"
#include "strand_map/strand_map.hpp"
#include "units/money.hpp"
#include "units/work_time.hpp"

namespace spadework {

/// What is down while an extension is made.
struct Interruption {
    std::string what;                         ///< "a new enclosure cut into trunk-a at gate".
    std::vector<int> links;                   ///< Indices into the built plan's links.
    WorkTime outage;                          ///< Of each at the longest: until all of them are made and tested again.
    bool made_anew = false;                   ///< They run in other cables afterwards.
    std::vector<BuildingIndex> cut_off = {};  ///< Buildings of a chain without a way to the hub for that time.
    std::string cut_near;                     ///< Names of the two parts of a trunk that is cut; empty where none is.
    std::string cut_far;
};

struct PricedWay {
    ExtendedPlan extended;
    RoutedExtension routed;
    Bill bill;
    Money total;  ///< What the customer pays.
    Findings findings;
    std::vector<KeptStrand> kept;  ///< Strands as they were plugged, by the names of its plan.
    std::optional<Interruption> interruption;
};

/// A way, or why it cannot be built.
struct Pricing {
    std::optional<PricedWay> way;
    std::string reason;
};

/// Assembles and prices; findings are left for check_way().
Pricing priced(const ExtensionTask& task, const RoutedExtension& routed);

/// The interrupted links of an extension as they are numbered in the built plan.
std::vector<int> links_by_name(const Plan& built, const ExtendedPlan& extended);

/// Checks the whole plan; "" or the first error.
std::string check_way(const Scenario& scenario, PricedWay& way);

}  // namespace spadework
