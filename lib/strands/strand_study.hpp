#pragma once

// How many strands a trunk should hold: the need link by link, and every cable size on offer against it by what it
// costs now and what it is expected to cost later.

#include <string>
#include <vector>

#include "scenario/scenario.hpp"
#include "strands/growth_chance.hpp"
#include "strands/later_trunks.hpp"
#include "strands/strand_need.hpp"
#include "strands/trunk_run.hpp"
#include "units/money.hpp"

namespace spadework {

struct BuildingStrands {
    BuildingIndex building = 0;
    int links = 0;
    int strands = 0;
};

/// Amounts are direct cost in minor units, before contingency and tax, of the study's trunk (or of its metre).
struct CableSizeOption {
    int product = 0;  ///< Index into catalogue.cables.
    UnitPrice price_per_metre;
    int spare_strands = 0;        ///< Beyond those in use; negative when too small.
    double headroom_percent = 0;  ///< Spare strands in percent of those in use.
    double chance_enough = 0;     ///< That growth to the horizon fits, 0 to 1.
    bool meets_policy = false;    ///< Holds use, spares and headroom.
    double price_now = 0;         ///< Laid now, its trench apart.
    LaterTrunks later;            ///< Where no spare duct is laid.
    LaterTrunks later_with_duct;  ///< Where one is laid now in every trench of the trunk.
    double duct_now = 0;          ///< What that duct costs.
    [[nodiscard]] double sum() const { return price_now + later.expected; }
    [[nodiscard]] double sum_with_duct() const { return price_now + duct_now + later_with_duct.expected; }
    /// A spare duct makes the sum smaller.
    [[nodiscard]] bool duct_pays() const { return sum_with_duct() < sum(); }
    [[nodiscard]] double best_sum() const { return duct_pays() ? sum_with_duct() : sum(); }
};

struct StrandStudy {
    TrunkRun run;
    std::vector<BuildingStrands> buildings;
    StrandNeed need;                         ///< Of one trunk that serves all buildings.
    Distribution growth_distribution;        ///< Chance that all growth to the horizon needs exactly k strands more.
    Distribution named_growth_distribution;  ///< The named buildings alone.
    std::vector<CableSizeOption> sizes;      ///< Ascending in strands.
    int recommended = -1;                    ///< Index into sizes: the least best_sum() of those that meet the policy,
                                             ///< of equals the one with more strands; -1 when none does.
    std::string reason;                      ///< Why that one.
    [[nodiscard]] bool any_growth() const { return growth_distribution.size() > 1; }
};

StrandStudy study_strands(const Scenario& scenario, const TrunkRun& run);

/// The same for a metre of trunk.
StrandStudy study_strands(const Scenario& scenario);

}  // namespace spadework
