#pragma once

#include "comparison/comparison.hpp"
#include "comparison/support/crossroads_site.hpp"

namespace spadework::crossroads {

/// Home runs, a trunk, a daisy chain and rings on the given crossroads, and a mix that cannot be built.
Comparison comparison_of(const Scenario& scenario);

/// Text that would do harm where it is not made safe.
inline const char* const hostile = "=cmd|'/c x'!A1,\"q\"\n\x1b[2J\u202E\xff<b>";

/// The crossroads with every name, id and note replaced by hostile text (ids kept apart by a number).
Scenario hostile_site();

/// The crossroads with 40 more buildings with long names, each on a lane of its own from the corner.
Scenario long_site();

/// A trunk to the corner that serves all 43 buildings of the long site.
RoutedLayout long_trunk();

}  // namespace spadework::crossroads
