#pragma once

#include <cstddef>
#include <vector>

namespace spadework {

/// Draws to plan anew at: one after the other the one that lies farthest from all before it, and from `known`
/// (Gonzalez 1985). Distances count each driver by `weights`. Ties go to the first; fewer than `count` where no
/// candidate lies apart from those chosen. `points` holds the quantiles of the candidates, driver by driver in each.
/// Returns their numbers.
std::vector<std::size_t> far_draws(const std::vector<double>& points, const std::vector<std::size_t>& candidates,
                                   const std::vector<double>& weights, const std::vector<std::vector<double>>& known,
                                   std::size_t count);

}  // namespace spadework
