#pragma once

// One or two inputs moved over a range, every layout planned along it: where the winner changes, and what is proved.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "doubt/risk_sample.hpp"
#include "doubt/swept_site.hpp"
#include "study/study.hpp"

namespace spadework {

/// One layout at one point, minor units.
struct SweptTotal {
    std::int64_t total = no_plan;  ///< Of the cheapest plan known.
    std::int64_t bound = 0;        ///< No plan of the layout costs less; 0 where nothing is proved.
    bool looked_for = true;        ///< Where there is no plan: none was found there, or its prices change nothing.
};

struct SweptPoint {
    double x = 0;
    double y = 0;                    ///< Of the second input; 0 where there is none.
    bool planned = false;            ///< Every layout was planned for it; otherwise plans made elsewhere count.
    std::vector<SweptTotal> totals;  ///< Layout by layout.
    std::optional<int> winner;       ///< Index of the least total; ties go to the first. Nothing where none has a plan.
    /// The winner costs no more than the bound of every layout that does not include its plans.
    bool proven = false;
};

/// The winner changes between two points along one input.
struct WinnerChange {
    double from = 0;            ///< Here the winner before is still the cheapest known,
    double to = 0;              ///< and here the one after is.
    std::optional<int> before;  ///< Index of a layout; nothing where none has a plan.
    std::optional<int> after;
    /// Where the one before is proven to win, and where the one after is: the change lies between, whatever plans there
    /// may be. Nothing where no such point was found between this change and the next.
    std::optional<double> proven_from;
    std::optional<double> proven_to;
    [[nodiscard]] bool proven() const { return proven_from && proven_to; }
};

struct Sweep {
    std::vector<SweptInput> inputs;  ///< One or two.
    std::vector<LayoutKind> layouts;
    std::vector<SweptPoint> points;     ///< The grid: x fastest.
    std::vector<WinnerChange> changes;  ///< Along one input, ascending; of two none are looked for.
    int planned = 0;                    ///< Points at which every layout was planned.
    int planned_in_part = 0;            ///< Points at which some were: those that may win, or whose bound was wanted.
    bool prices_alone = false;          ///< Plans made at some points were priced at all others.
    bool interrupted = false;
    std::vector<std::string> violations;  ///< Bugs found by the verifier; nothing may be shown when there are any.
    Diagnostics diagnostics;  ///< What is wrong with an input at some value; then nothing else is to be used.
};

struct SweepOptions {
    StudyOptions study;               ///< `seconds` is of one search for a plan.
    double gap = 0.05;                ///< Searches stop at this gap.
    int halvings = 8;                 ///< Of a stretch between two points in which the winner changes.
    int most_planned_on_the_way = 3;  ///< Points besides, at changes and where least is proven, that are planned.
};

/// Where inputs move prices alone, every layout is planned at the ends, in the middle, at the changes
/// found and where least is proven; at all other points the plans known are priced, and bounds follow from those proved
/// (bound_between()). Otherwise see Replanning. The same options give the same sweep, whatever the number of threads,
/// unless a time limit or the observer cuts it short.
Sweep sweep(const Scenario& scenario, const site_file::VaryingSite& site, const std::vector<SweptInput>& inputs,
            const SweepOptions& options);

}  // namespace spadework
