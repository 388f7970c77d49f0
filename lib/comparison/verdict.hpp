#pragma once

// What a comparison comes to, in words a customer can follow, worked out from the bills.

#include <optional>
#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// A change in the price of one category, all else and all plans as they are, at which another layout costs no more
/// than the cheapest one.
struct TurningPoint {
    int layout = 0;  ///< Index of the layout that draws level.
    Category category = Category::groundworks;
    double change = 0;  ///< -0.38: the category costs 38 % less. At least -1, never 0 unless the totals are equal.
};

/// For each dearer feasible layout and each direct-cost category where the two differ, the change at which their direct
/// costs meet: (1 + change) * (a_c - b_c) = (b - b_c) - (a - a_c) for direct costs a, b and category costs a_c, b_c.
/// Changes below -100 % do not exist and are left out, and so are layouts at the same total. Nearest change first (by
/// the larger of the factor and its inverse), then by layout and category.
std::vector<TurningPoint> turning_points(const std::vector<LayoutResult>& layouts, int cheapest);

/// Two sentences: what wins, by how much and whether the bounds prove it; and what would change it.
std::string verdict(const Scenario& scenario, const std::vector<LayoutResult>& layouts, std::optional<int> cheapest);

}  // namespace spadework
