#pragma once

// The same plan with factory-made ends and with ends spliced on site.

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"
#include "units/work_time.hpp"

namespace spadework {

/// Cost and hours of one way to terminate: cable, ends and joints, before contingency and tax.
struct TerminationCost {
    Money cost;
    WorkTime time;  ///< Plugging, splicing and jointing; not pulling.
};

struct CableTermination {
    int cable = 0;  ///< Index into the plan's cables.
    TerminationCost factory;
    TerminationCost spliced;
};

struct TerminationChoice {
    std::vector<CableTermination> cables;
    TerminationCost factory;  ///< All cables.
    TerminationCost spliced;
    int strand_ends = 0;                     ///< Strand ends plugged or spliced.
    std::vector<std::string> spliced_fails;  ///< Links whose optics would not carry the loss of two splices a cable.
    std::vector<std::string> factory_fails;
};

/// Prices every cable of a plan both ways, ordered lengths included. Common practice, no published source, has a crew
/// plug about six times as many strands as it splices in the same time: compare with time / strand_ends.
TerminationChoice termination_choice(const Scenario& scenario, const Plan& plan);

}  // namespace spadework
