#pragma once

// Ways of serving what is new from the chains and rings that are there, which interrupt links.

#include <optional>
#include <vector>

#include "extension/assembling.hpp"
#include "extension/joint_routes.hpp"
#include "extension/priced_way.hpp"
#include "strand_map/strand_map.hpp"

namespace spadework {

/// The cheapest of: larger gear in the last building of a chain, so that what is new may hang on it; and, where one
/// building is new, that building put into a chain or ring before one of its buildings, a ring so that no cut takes a
/// building down that it did not take down before. A ring's closing cable is left as it is. `strands` are those of the
/// built plan.
std::optional<PricedWay> cheapest_chain_change(const ExtensionSearch& search, const ExtensionTask& task,
                                               const std::vector<KeptStrand>& strands);

}  // namespace spadework
