#pragma once

// The last step every layout shares: routes made into the cheapest plan that keeps to the limits no router knows of.

#include <functional>
#include <optional>
#include <vector>

#include "layout/design.hpp"
#include "layout/routed_layout.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Routes a layout anew on a network with some ways withheld; nothing when that is impossible.
using Reroute = std::function<std::optional<RoutedLayout>(const Network&)>;

/// Makes plans of the routes as they are, of routes found again without the ducts that ran over their room, and, where
/// a link is too long for any optic, of each fallback in turn; the cheapest plan goes into the design, or else the
/// first reason why there is none.
void finish(const Scenario& scenario, const RoutedLayout& routed, const Reroute& reroute,
            const std::vector<RoutedLayout>& fallbacks, Design& design);

}  // namespace spadework
