#pragma once

// Bounds raised to what cables cost as they are bought. A routing problem charges a cable so much a metre; but cable is
// sold in steps, is joined where it is long, and may pay more for a way than one measure of all cables can say. With
// the prices on openings that a solver found, each cable's cheapest way is found again, at what it would really cost.
//
// Why that is a bound. Let demand d be charged k_d a length unit of a measure M that all share, and let every path P of
// it really cost at least k_d M(P) + c_d + min(s_d(P), S_d) with s_d(P) >= 0: what it costs beyond its charges is
// counted up to S_d alone. Take a plan that is cheapest so, and say that demands a and b use an edge e in opposite
// directions. If either had the other's way to the far end of e instead, no edge would be opened, and their two ways
// together would be shorter by 2 M(e) or more: one by x, the other by 2 M(e) - x. Neither gain may be more than what is
// counted beyond charges can eat up, so that k_a x <= S_a and k_b (2 M(e) - x) <= S_b, hence 2 M(e) <= S_a / k_a + S_b
// / k_b. Where that is so of no edge on which prices of a run against prices of b, no plan need use both directions of
// it, and prices whose sums come to no more than the opening in each direction prove a bound (see
// SharedCostCertificate): the sum over demands of the least that a path costs so, prices included.

#include <cstdint>
#include <vector>

#include "graph/pair_routes.hpp"
#include "layout/bought_cable.hpp"
#include "layout/service_figures.hpp"
#include "routing/network.hpp"
#include "routing/one_measure.hpp"
#include "units/money.hpp"

namespace spadework {

/// The cable of one demand, and what it costs at its ends whatever its way.
struct BoughtDemand {
    BoughtCable cable;
    Money ends;  ///< Cable and material, work left out: as the product with the least.
};

/// Each building's own cable, in order.
std::vector<BoughtDemand> bought_demands(const Scenario& scenario, const ServiceFigures& figures);

/// What holds of plans that fan out from one root.
struct BoughtRoot {
    std::int64_t coil_too_much = 0;  ///< Millimetres that the network's lengths count and cables do not have there.
    /// For each demand what constant and root's cost count for this cable beside its charges, what charges leave out
    /// not included.
    std::vector<Money> counted;
};

struct BoughtCables {
    CostScale scale;
    std::vector<BoughtDemand> demands;  ///< Parallel to the problem's.
    std::vector<BoughtRoot> roots;      ///< Parallel to the problem's.
};

/// Raises the bounds of the roots of `problem` in the solution that bounds it, as far as that raises the least of them,
/// and that with them. Once `time` is up, bounds stay as they are.
void raise_by_bought_cables(const graph::SharedCostProblem& problem, const BoughtCables& cables,
                            const graph::pair_routes::StopRule& time, MeasuredSolution& solution);

}  // namespace spadework
