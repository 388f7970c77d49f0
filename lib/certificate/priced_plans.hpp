#pragma once

// Plans split by which edges they use: whether the parts are all plans together, and what each part leaves to prices.

#include <string>
#include <vector>

#include "certificate/least_figures.hpp"
#include "layout/bound_certificate.hpp"

namespace spadework::certificate {

/// Prices, and the plans that they bound: all, or those that keep to some choices of edges.
struct PricedPlans {
    const graph::EdgePriceSet* prices = nullptr;
    std::int64_t parts = 1;             ///< Parts of price in a solver unit.
    std::vector<graph::Cost> openings;  ///< By edge, the most that prices may come to: 0 where all these plans use it.
    std::vector<char> closed;           ///< By edge, whether none of these plans uses it.
    Wide opened = 0;                    ///< What the edges cost to open that all these plans use, in solver units.
};

/// All plans, bounded by one of the evidence's sets of prices.
PricedPlans all_plans(const RoutesEvidence& evidence, std::size_t set);

/// The plans of one part. Its choices must have been found to be without fault.
PricedPlans plans_of(const RoutesEvidence& evidence, const graph::PartProof& part);

/// Why the evidence's splits do not cover all plans, in one sentence; "" where they do, or there are none.
std::string split_fault(const RoutesEvidence& evidence);

}  // namespace spadework::certificate
