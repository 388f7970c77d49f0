#pragma once

// A built trunk cut at a place on its way, for an enclosure there.

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "strand_map/strand_map.hpp"
#include "units/work_time.hpp"

namespace spadework {

/// Where to cut which trunk.
struct TrunkCut {
    int cable = 0;         ///< Index into the built plan's cables.
    PlaceIndex place = 0;  ///< That it passes.
    std::size_t step = 0;  ///< Of its steps, the first behind the place.
};

/// Every place that a trunk passes between its ends, that may take an enclosure and has none: by cable, then from the
/// hub outwards.
std::vector<TrunkCut> possible_cuts(const Scenario& scenario, const Plan& built);

/// The built plan with the cut made: the trunk as two cables, and an enclosure without boxes between them. The part
/// behind keeps the trunk's name, as it ends where the trunk did; the part before is called after the cut's place. What
/// was ordered, slack included, is shared between the parts in proportion to their routes.
struct MadeCut {
    Plan plan;
    int near = 0;            ///< Indices into its cables: the part from the hub's side,
    int far = 0;             ///< and the part behind.
    int enclosure = 0;       ///< Index into its enclosures.
    std::vector<int> links;  ///< That run through the cut: indices into the links, of both plans.
};
MadeCut make_cut(const Scenario& scenario, const Plan& built, const TrunkCut& cut);

/// Setting up, and splicing every strand of the trunk: through, or to a pigtail.
WorkTime time_to_splice(const Scenario& scenario, const MadeCut& cut);

/// Strands as they were plugged, by the names of the plan with the cut.
std::vector<KeptStrand> renamed_by_cut(const std::vector<KeptStrand>& strands, const std::string& near,
                                       const std::string& far);

/// The inverse: the two parts of each strand as one of the whole trunk, by the name of the part behind, with what they
/// carry where both carry the same. Strands that end at the cut are what their part before it is.
std::vector<KeptStrand> rejoined(const std::vector<KeptStrand>& strands, const std::string& near,
                                 const std::string& far);

}  // namespace spadework
