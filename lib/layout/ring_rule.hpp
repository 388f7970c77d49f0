#pragma once

// How well rings stand a cut: the rule they are held to, and what is to be told of it.

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Whether a cut of any one segment takes down only buildings that the map itself, segments that cannot be used left
/// out, leaves without a way to the hub then.
bool rings_keep_apart(const Scenario& scenario, const RoutedLayout& routed);

/// One note that names the segments of which a cut takes buildings down, the worst first and a few only, or none where
/// no cut does.
std::vector<std::string> notes_on_cuts(const Scenario& scenario, const RoutedLayout& routed);

}  // namespace spadework
