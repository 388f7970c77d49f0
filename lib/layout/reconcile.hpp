#pragma once

#include <array>
#include <optional>
#include <utility>
#include <vector>

#include "layout/design.hpp"

namespace spadework {

/// Layouts whose plans are among another's, the narrower one first; in an order that lets plans and bounds travel all
/// the way.
inline constexpr std::array<std::pair<LayoutKind, LayoutKind>, 4> contained_in = {{
    {LayoutKind::trunk_one, LayoutKind::trunk},
    {LayoutKind::trunk, LayoutKind::mixed},
    {LayoutKind::home_runs, LayoutKind::mixed},
    {LayoutKind::trunk_one, LayoutKind::mixed},
}};

/// Lets designs of one site learn from each other where one layout's plans are among another's: a trunk with one
/// enclosure is a trunk, and both it and home runs are mixes. A wider layout takes over the plan of a narrower one that
/// is cheaper to build, and a narrower one takes over a wider one's bound where that is higher.
void reconcile(const Scenario& scenario, std::vector<Design>& designs);

/// The trunk layout's design where that of the mixed one has no home run: its plan is a trunk plan then, and its bound
/// holds for the narrower layout. Nothing where there is a home run, or no plan.
std::optional<Design> trunk_within(const Design& mixed);

}  // namespace spadework
