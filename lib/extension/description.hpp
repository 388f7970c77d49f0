#pragma once

#include <vector>

#include "extension/extension.hpp"

namespace spadework {

/// Fills in what follows from an extension's plan: who is served from where, what is dug, the strands, the link
/// budgets, and the comparison with what was built. `kept` are the strands as they were, by the names of the extended
/// plan.
void describe_extension(const Scenario& scenario, const BuiltPlan& built, const std::vector<KeptStrand>& kept,
                        const RoutedExtension& routed, Extension& extension);

}  // namespace spadework
