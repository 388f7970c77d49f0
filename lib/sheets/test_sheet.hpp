#pragma once

// What to measure once the cables are in, and what the readings may be.

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "strand_map/strand_map.hpp"
#include "units/length.hpp"

namespace spadework {

/// Something a reflectometer shows on the way.
struct TraceEvent {
    std::string what;   ///< "connector", "splice".
    std::string where;  ///< "hub", "enclosure at gate", "building mill", "joint 1 of trunk-1".
    Length distance;    ///< From the end nearer the hub, along the glass as ordered or cut.
};

/// Loss of one strand at one wavelength; it is the same limit in both directions.
struct LossLimit {
    double wavelength_nm = 0;
    double calculated_db = 0;  ///< Fibre, mated pairs and splices at their allowances.
    double optics_db = 0;      ///< What the optics carry, less the spare margin and attenuators to be plugged after.
    double pass_db = 0;        ///< The smaller of the two.
    double least_db = 0;       ///< A reading below this is too good: half the fibre's allowance alone.
};

/// One strand of one link, end to end.
struct StrandTest {
    int link = 0;                      ///< Index into the plan's links.
    int leg = 0;                       ///< From 1.
    std::vector<std::size_t> strands;  ///< Places in the strand map, in order from the hub.
    Length glass;                      ///< As laid: the ordered length of factory-made cable, which nobody cuts.
    std::vector<LossLimit> limits;     ///< By wavelength.
    std::vector<TraceEvent> events;    ///< By distance.
};

/// One entry for each strand of each link, in the plan's order. Every strand is measured from both ends at each
/// wavelength its link uses (both of a bidirectional link's).
std::vector<StrandTest> test_sheet(const Scenario& scenario, const Plan& plan, const StrandMap& map);

}  // namespace spadework
