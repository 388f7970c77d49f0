#pragma once

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// What makes one feasible result dearer than another, from their bills: categories that cost more, dearest first, with
/// the metres behind them, then those that cost less. Direct cost only; contingency and tax follow from it. "" where
/// no category differs.
std::string why_dearer(const Scenario& scenario, const LayoutResult& dearer, const LayoutResult& best);

}  // namespace spadework
