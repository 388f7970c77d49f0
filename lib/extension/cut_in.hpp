#pragma once

// A new enclosure cut into a trunk on its way: a way of serving what is new that interrupts what is there.

#include <optional>
#include <vector>

#include "extension/assembling.hpp"
#include "extension/joint_routes.hpp"
#include "extension/priced_way.hpp"
#include "strand_map/strand_map.hpp"

namespace spadework {

/// The cheapest way found in which some or all additions are served from one cut: the trunk is cut at a place it
/// passes, every strand is spliced through, and dark strands for the new links end on adapters there. All links in it
/// are down while that is done. `strands` are those of the built plan. Nothing where no trunk passes a place that may
/// take an enclosure, where none has the dark strands, where the rules allow no further enclosure, or where the site
/// file says nothing of splicing.
std::optional<PricedWay> cheapest_cut_in(const ExtensionSearch& search, const ExtensionTask& task,
                                         const std::vector<KeptStrand>& strands);

}  // namespace spadework
