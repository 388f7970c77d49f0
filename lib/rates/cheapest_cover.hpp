#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace spadework {

/// Something sold in pieces that each cover part of a need.
struct CoverItem {
    std::int64_t capacity = 0;  ///< What one piece covers, more than 0 to be of use.
    std::int64_t price = 0;     ///< Of one piece, 0 or more.
    friend bool operator==(const CoverItem&, const CoverItem&) = default;
};

/// How many of each item to take so that the capacities sum to at least `need` at the least price (unbounded knapsack
/// cover, exact, by dynamic programming over the need). Among equals the one with fewer pieces, then more of the
/// earlier items. Nothing when no item has capacity; all zero when the need is 0 or less. Needs above 100,000 are
/// refused too.
std::optional<std::vector<int>> cheapest_cover(const std::vector<CoverItem>& items, std::int64_t need);

/// Something sold in pieces that each cover part of two needs at once.
struct CoverItemOfTwo {
    std::int64_t first = 0;   ///< What one piece covers of the first need, 0 or more.
    std::int64_t second = 0;  ///< Of the second.
    std::int64_t price = 0;   ///< Of one piece, 0 or more.
};

/// The same for two needs that both must be covered, exact too, with the same ties. The two needs together may ask for
/// at most four million pairs (first + 1) * (second + 1).
std::optional<std::vector<int>> cheapest_cover_of_two(const std::vector<CoverItemOfTwo>& items, std::int64_t first,
                                                      std::int64_t second);

}  // namespace spadework
