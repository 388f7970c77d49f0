#pragma once

// Layouts side by side, and what to say about them.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "checks/checks.hpp"
#include "checks/next_rate.hpp"
#include "costing/bill.hpp"
#include "failures/failures.hpp"
#include "layout/design.hpp"
#include "scenario/scenario.hpp"
#include "strand_map/kept_map.hpp"
#include "strand_map/strand_map.hpp"

namespace spadework {

struct CableMetres {
    Length route;
    Length with_slack;
    Length ordered;
};

/// What a layout comes to where its links have the strand use that was not chosen.
struct OtherStrandUse {
    StrandUse use = StrandUse::duplex;
    std::optional<Money> total;    ///< What the customer would pay; empty when infeasible.
    std::string reason;            ///< Why infeasible.
    bool impossible = false;       ///< Proved: no plan of this strand use exists.
    Money direct_bound;            ///< No plan of this strand use has a smaller direct cost.
    BoundCertificate certificate;  ///< What proves that.
};

/// One layout with all that is known of it.
struct LayoutResult {
    LayoutKind layout = LayoutKind::home_runs;
    std::optional<Plan> plan;  ///< Empty when infeasible.
    std::string reason;        ///< Why infeasible.
    bool impossible = false;   ///< Proved: no plan of this layout exists.
    bool interrupted = false;
    std::vector<std::string> notes;
    Bill bill;
    Money total;                                     ///< What the customer pays.
    Money bound;                                     ///< No plan of this layout costs less, on the same total.
    Money direct_bound;                              ///< The same before contingency and tax.
    BoundCertificate certificate;                    ///< What proves the bound.
    double gap = 0;                                  ///< (total - bound) / total, 0 for a total of 0.
    Length trench;                                   ///< Of segments dug; existing ducts and pole lines apart.
    Length reused;                                   ///< Of existing ducts and pole lines used.
    std::map<std::string, Length> trench_by_ground;  ///< By ground id, with "existing duct" and "pole line".
    std::map<std::string, Length> trench_by_method;  ///< By kind of method.
    std::map<int, CableMetres> cable_by_strands;
    StrandMap strand_map;           ///< In the site's colour order.
    std::vector<std::string> kept;  ///< What became of an earlier plan's strands, a sentence each; empty without one.
    std::vector<LinkBudget> link_budgets;
    std::vector<NextRate> next_rates;     ///< Of each link.
    std::optional<OtherStrandUse> other;  ///< Where the rules leave the strand use to the price.
    std::optional<double> worst_margin_db;
    SingleCut worst_cut;
    FailureStudy failures;
    Findings findings;
    [[nodiscard]] bool feasible() const { return plan.has_value(); }
};

struct Comparison {
    std::vector<LayoutResult> layouts;  ///< In the order of LayoutKind.
    std::optional<int> cheapest;        ///< Index into layouts; ties go to the earlier. Empty when none is feasible.
    std::string verdict;                ///< Two sentences: what wins and by how much; what would change it.
};

/// Takes a design through checks and costing. A plan with an error finding is not feasible: the finding becomes the
/// reason. Where there is no plan, the findings are those of the nearest one. Strands of an earlier plan stay where
/// they are as far as the plan still has their cables; what became of them is told in `kept`.
LayoutResult assess(const Scenario& scenario, Design design, const KeptMap& earlier = {});

Comparison compare(const Scenario& scenario, std::vector<LayoutResult> layouts);

}  // namespace spadework

// Lists that many sources copy: compiled once, in comparison.cpp.
extern template class std::vector<spadework::LayoutResult>;
