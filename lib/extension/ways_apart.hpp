#pragma once

// Two cables of a ring's new building that keep apart from each other and from the ring's other hops.

#include <optional>
#include <set>

#include "extension/joint_routes.hpp"

namespace spadework {

/// Routes of the two additions of `pair`, the second of which hangs on the first, laid in the order given. Neither
/// passes a segment of `others`, nor one that the first to be laid passes, but where its end had no way otherwise. A
/// heuristic: the first is laid by its cheapest way. Nothing where there is no way.
std::optional<RoutedExtension> routed_apart(const ExtensionSearch& pair, const std::vector<Source>& sources,
                                            const std::vector<std::size_t>& order,
                                            const std::set<SegmentIndex>& others);

}  // namespace spadework
