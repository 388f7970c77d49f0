#pragma once

// A new enclosure cut into a trunk on its way: the one way of serving what is new that touches what is there.

#include <optional>
#include <vector>

#include "extension/assembling.hpp"
#include "extension/joint_routes.hpp"
#include "units/money.hpp"
#include "units/work_time.hpp"

namespace spadework {

/// The trunk is cut at a place it passes, every strand is spliced through, and dark strands for the new links end on
/// adapters there. All links in it are down while that is done.
struct CutIn {
    int cable = 0;           ///< Index into the built plan's cables.
    PlaceIndex place = 0;    ///< Where it is cut.
    Money total;             ///< What the customer would pay.
    std::vector<int> links;  ///< Interrupted: indices into the built plan's links.
    WorkTime outage;         ///< Of each: setting up, and splicing every strand of the trunk.
};

/// The cheapest cut that serves all additions from one new enclosure; nothing where no trunk passes a place that may
/// take one, where no trunk has the dark strands, or where the rules allow no further enclosure.
std::optional<CutIn> cheapest_cut_in(const ExtensionSearch& search, const ExtensionTask& task);

}  // namespace spadework
