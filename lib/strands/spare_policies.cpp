#include "strands/spare_policies.hpp"

#include <algorithm>
#include <cstdint>

namespace spadework {

namespace {

int percent_of(int count, int percent) {
    return static_cast<int>((std::int64_t{count} * percent + 99) / 100);
}

/// Of those that hold so many strands, the one of the least sum; of equals the larger.
int cheapest_that_holds(const Scenario& scenario, const StrandStudy& study, int strands) {
    int best = -1;
    for (int i = 0; i < static_cast<int>(study.sizes.size()); ++i) {
        const CableSizeOption& size = study.sizes[static_cast<std::size_t>(i)];
        if (scenario.catalogue.cables[static_cast<std::size_t>(size.product)].strands < strands) continue;
        if (best < 0 || size.best_sum() <= study.sizes[static_cast<std::size_t>(best)].best_sum()) best = i;
    }
    return best;
}

}  // namespace

std::vector<SparePolicy> spare_policies(const Scenario& scenario, const StrandStudy& study) {
    const int in_use = study.need.in_use;
    std::vector<SparePolicy> policies = {
        {"This site's rules", "rules.spare and growth.headroom of the site file", false, study.need.total()},
        {"20 % for growth and 5 % spare", "MIL-HDBK-2051(SH) 5.3.1.2.3", true,
         in_use + percent_of(in_use, 20) + percent_of(in_use, 5)},
        {"25 % spare on 12 at least", "UFGS-40 95 33.23 20, designer note", true,
         percent_of(std::max(in_use, 12), 125)},
        {"30 % on the demand", "Illinois State University Design Guidelines 27 11 00", true, percent_of(in_use, 130)},
    };
    for (const int chance : {90, 95, 99}) {
        policies.push_back({std::to_string(chance) + " % chance that growth fits", "the site's growth, exact", false,
                            in_use + least_with_chance(study.growth_distribution, chance / 100.0)});
    }
    for (SparePolicy& policy : policies)
        policy.size = cheapest_that_holds(scenario, study, policy.strands);
    return policies;
}

}  // namespace spadework
