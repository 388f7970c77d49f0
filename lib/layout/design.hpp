#pragma once

// The best plan for one layout, with a proven lower bound on what any plan of that layout costs.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "graph/progress.hpp"
#include "layout/bound_certificate.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

struct DesignLimits {
    double seconds = 10.0;  ///< For one layout, wall clock.
    int threads = 1;        ///< Never changes the answer.
    std::uint64_t seed = 1;
    graph::Progress* progress = nullptr;
    double target_gap = 0;  ///< A solver stops when its gap is at or below this; 1 asks for a plan and no more.
};

struct Design {
    LayoutKind layout = LayoutKind::home_runs;
    std::optional<Plan> plan;      ///< Empty when infeasible.
    std::string reason;            ///< Why it is infeasible, or "" when it is feasible.
    bool impossible = false;       ///< Proved: the site's figures leave no plan of this layout.
    std::optional<Plan> nearest;   ///< Where it is infeasible: a plan for checks to say by how much; see Assembly.
    Money direct_bound;            ///< No plan of this layout has a smaller direct cost (before contingency and tax).
    BoundCertificate certificate;  ///< What proves the bound.
    bool interrupted = false;
    std::vector<std::string> notes;  ///< Decisions worth telling, in order ("existing duct D4 is full: …").
};

Design design(LayoutKind layout, const Scenario& scenario, const DesignLimits& limits);

/// The trunk layout with one enclosure at each allowed place in turn (an index into scenario.places).
struct PlaceDesign {
    PlaceIndex place = 0;
    Design design;
};
std::vector<PlaceDesign> design_at_every_place(const Scenario& scenario, const DesignLimits& limits);

/// The best trunk plan found with exactly 1, 2, … enclosures, up to the rule's limit.
std::vector<Design> design_by_enclosure_count(const Scenario& scenario, const DesignLimits& limits);

}  // namespace spadework
