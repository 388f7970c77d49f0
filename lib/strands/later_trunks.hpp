#pragma once

// What it costs to run out of strands: when, and what is laid then.

#include <vector>

#include "scenario/scenario.hpp"
#include "strands/growth_chance.hpp"
#include "strands/trunk_run.hpp"

namespace spadework {

/// One year on the way to the horizon; year 0 is today.
struct GrowthYear {
    double chance_run_out = 0;  ///< That the strands have run out by the end of it, 0 to 1.
    double expected = 0;        ///< Cost expected in it, discounted, minor units.
};

/// Further trunks of one product, laid whenever what is there does not hold what has come.
struct LaterTrunks {
    int product = -1;               ///< Index into catalogue.cables; -1 where no cable holds a link.
    double expected = 0;            ///< Discounted, all years together, minor units.
    std::vector<GrowthYear> years;  ///< Year 0 to the horizon.
};

/// Growth year by year, worked out once for every size on offer.
class GrowthByYear {
public:
    explicit GrowthByYear(const Scenario& scenario);

    /// Chance that growth by the end of a year needs more than `strands`; 1 where these are fewer than none.
    [[nodiscard]] double chance_of_more(std::size_t year, long long strands) const;
    [[nodiscard]] std::size_t years() const { return more_.size(); }
    /// Chance of each number of strands by the horizon.
    [[nodiscard]] const Distribution& at_horizon() const { return at_horizon_; }

private:
    std::vector<std::vector<double>> more_;  ///< For each year the chance of more than k strands.
    Distribution at_horizon_;
};

/// The product for further trunks that makes the expected cost least, for a trunk with so many strands beyond those in
/// use. If D(t) strands are needed by year t, max(0, ceil((D(t) - spare) / strands of the product)) further trunks are
/// there by then. D never falls, so the cost expected in year t is the sum over j of the j-th trunk's price times the
/// rise of the chance that D exceeds spare + (j - 1) strands of the product: exact, whatever the order in which growth
/// comes. A cost in year t counts 1 / (1 + discount rate)^t.
LaterTrunks later_trunks(const Scenario& scenario, const TrunkRun& run, const GrowthByYear& growth, int spare,
                         int spare_ducts);

}  // namespace spadework
