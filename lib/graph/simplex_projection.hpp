#pragma once

// The nearest prices that a purse can pay.

#include <cstddef>
#include <vector>

namespace spadework::graph {

/// What to take off every wish so that the positive remainders sum to `total` (0 when they do not exceed it). The
/// remainders are then the point of {x >= 0, sum x <= total} nearest to the wishes. Michelot, "A finite algorithm for
/// finding the projection of a point onto the canonical simplex" (1986). Reorders `wishes`.
double cut_to_fit(std::vector<double>& wishes, double total);

/// The same with how many wishes are larger than what is taken off: their number times the change of the cut is the
/// change of the total the other way. 0 where nothing has to be taken off.
struct Cut {
    double taken = 0.0;
    std::size_t from = 0;
};
Cut counted_cut_to_fit(std::vector<double>& wishes, double total);

}  // namespace spadework::graph
