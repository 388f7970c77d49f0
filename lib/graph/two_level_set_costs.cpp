#include "graph/two_level_set_costs.hpp"

#include <algorithm>
#include <numeric>

namespace spadework::graph::two_level {

FeederTable::FeederTable(const TwoLevelProblem& problem, const Relaxation& relaxation) {
    std::int64_t all = 0;
    std::int64_t step = 0;
    for (const TwoLevelDemand& d : problem.demands) {
        all += d.units;
        step = std::gcd(step, d.units);
    }
    units_a_step_ = std::max<std::int64_t>(step, 1);
    steps_ = all / units_a_step_;
    const std::vector<Feeder> feeders = usable_feeders(problem);
    for (const Site& site : problem.sites) {
        if (relaxation.source_length[site.at] == kLargestCost) continue;
        std::vector<Cost> costs(static_cast<std::size_t>(steps_) + 1, kLargestCost);
        for (std::int64_t s = 0; s <= steps_; ++s) {
            const Feeder* feeder = cheapest_feeder(feeders, site, s * units_a_step_, relaxation.source_length[site.at],
                                                   relaxation.source_passage[site.at]);
            if (feeder == nullptr) break;
            const Cost cost = site.cost + feeder_cost(*feeder, site, relaxation.source_length[site.at],
                                                      relaxation.source_passage[site.at]);
            costs[s] = cost * relaxation.parts;
        }
        cost_.push_back(std::move(costs));
    }
}

FeederTable::Split FeederTable::cheapest_split(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                               std::span<const Range> ranges, bool all_units) const {
    const auto width = static_cast<std::size_t>(steps_) + 1;
    std::vector<std::vector<Cost>> least(set.size() + 1, std::vector<Cost>(width, kLargestCost));
    std::vector<std::vector<std::int64_t>> taken(set.size(), std::vector<std::int64_t>(width, 0));
    least[0][0] = 0;
    for (std::size_t k = 0; k < set.size(); ++k) {
        const std::vector<Cost>& costs = cost_[set[k]];
        const Cost ask = asks[k] * units_a_step_;
        for (std::size_t before = 0; before < width; ++before) {
            if (least[k][before] == kLargestCost) continue;
            const auto most = std::min(width - 1 - before, static_cast<std::size_t>(ranges[k].most));
            for (auto here = static_cast<std::size_t>(ranges[k].least); here <= most; ++here) {
                if (costs[here] == kLargestCost) break;
                const Cost sum = least[k][before] + costs[here] - ask * static_cast<Cost>(here);
                if (sum >= least[k + 1][before + here]) continue;
                least[k + 1][before + here] = sum;
                taken[k][before + here] = static_cast<std::int64_t>(here);
            }
        }
    }
    const std::vector<Cost>& last = least.back();
    auto total = all_units ? last.end() - 1 : std::min_element(last.begin(), last.end());
    Split split{*total, std::vector<std::int64_t>(set.size(), 0)};
    if (split.cost == kLargestCost) return split;
    for (std::size_t k = set.size(), at = static_cast<std::size_t>(total - last.begin()); k-- > 0;) {
        split.steps[k] = taken[k][at];
        at -= static_cast<std::size_t>(taken[k][at]);
    }
    return split;
}

}  // namespace spadework::graph::two_level
