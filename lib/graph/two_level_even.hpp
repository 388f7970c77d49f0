#pragma once

// A relaxation in which all demands rank all ways of being served alike.
//
// Where every demand's charges for length and passage are in one proportion, and what a site or the source asks of a
// demand is in that proportion too, some cheapest choice among the open sites serves every vertex from one site by one
// way, whoever passes there: the ways make up trees around the sites. Trenches that join these trees to the source
// without closing a cycle are enough, because feeders are priced by shortest ways. So demands may be taken to be served
// in a tree, and there is no chord to be paid for.

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "graph/two_level_relaxation.hpp"

namespace spadework::graph::two_level {

/// Each demand's charge as a multiple of a common one, and how many units go with one multiple at least.
struct EvenShares {
    std::vector<Cost> multiple;  ///< By demand; 0 for a demand that pays nothing.
    std::int64_t units = 0;      ///< `units` units go with `per_multiple` multiples, in no demand fewer.
    Cost per_multiple = 1;
};

/// Nothing where the charges are not in one proportion, or where some demands may be served directly and others not.
std::optional<EvenShares> even_shares(const TwoLevelProblem& problem);

/// The relaxation with what sites and source ask made even. What that takes off every way of serving a demand is added
/// back as `constant`, so bounds of the result are bounds of the original.
Relaxation made_even(Relaxation relaxation, const EvenShares& shares);

}  // namespace spadework::graph::two_level
