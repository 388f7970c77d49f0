#pragma once

// Re-checks a result with separate, simple code: routes walked, strands and ports counted, metres re-measured, cost
// re-added, bound not above cost. Anything it finds is a bug in Spadework, not in the site.

#include <string>
#include <vector>

#include "comparison/comparison.hpp"

namespace spadework {

/// One sentence for each violation; empty when the result holds.
std::vector<std::string> violations(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework
