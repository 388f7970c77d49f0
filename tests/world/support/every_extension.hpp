#pragma once

// The cheapest extension of a plan that was built, by trying every source of every further building with every simple
// path of its cable, and every place and trunk for one more enclosure where the rules allow one, for every set of the
// further buildings. For a handful of places only. What was built is read from the plan; prices are own_prices' own.

#include <optional>

#include "layout/plan.hpp"
#include "world/support/own_prices.hpp"

namespace spadework::own {

/// Least total (contingency and tax included) of serving all buildings that the plan does not; nothing where there is
/// no way. Built enclosures must have one trunk cable each. Where links may be interrupted, every trunk is also cut at
/// every place that it passes.
enum class Interrupting { no, allowed };
std::optional<Cents> best_extension(const Scenario& site, const Plan& built, Interrupting links = Interrupting::no);

}  // namespace spadework::own
