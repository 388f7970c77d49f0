#pragma once

// The two-level problem with one site: the single-root problem with a free root.

#include <optional>

#include "graph/shared_cost_solver.hpp"
#include "graph/two_level_figures.hpp"
#include "graph/two_level_problem.hpp"

namespace spadework::graph::two_level {

/// Every plan has exactly one open site and nobody is served by the source.
bool is_single(const TwoLevelProblem& problem);

/// Sites as roots, with the source as one more demand behind all others, which pays what the cheapest feeders that hold
/// everything pay at least. No plan of the two-level problem costs less than the result's bound, and where one such
/// feeder is the cheapest in every figure the two problems are the same. Nothing when no feeder holds everything.
std::optional<SharedCostProblem> single_root(const TwoLevelProblem& problem);

/// The plan in the terms of the two-level problem, priced anew.
std::optional<TwoLevelPlan> plan_from(const TwoLevelProblem& problem, const SharedCostPlan& plan);

}  // namespace spadework::graph::two_level
