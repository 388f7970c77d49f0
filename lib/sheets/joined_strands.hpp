#pragma once

#include <cstddef>
#include <map>
#include <string>

#include "layout/plan.hpp"
#include "sheets/test_sheet.hpp"
#include "strand_map/strand_map.hpp"

namespace spadework {

/// The strand that each strand of a trunk or drop is joined to across an adapter of an enclosure, by places in the map.
std::map<std::size_t, std::size_t> joined_strands(const StrandMap& map);

/// Labels of the strands that a test runs through, in order from the hub: "trunk-1/3 > drop-mill/1".
std::string way_of(const Plan& plan, const StrandMap& map, const StrandTest& test);

/// Which way light goes: "from hub" along a duplex link's first strand, "to hub" along its second, "both" along the one
/// strand of a bidirectional link; empty for a dark strand.
const char* light_in(const Plan& plan, const MappedStrand& strand);

}  // namespace spadework
