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

/// The steps that cost least at each site by itself; they count where together they are not too many.
FeederTable::Split FeederTable::each_by_itself(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                               std::span<const Range> ranges) const {
    Split split{0, std::vector<std::int64_t>(set.size(), 0)};
    for (std::size_t k = 0; k < set.size(); ++k) {
        const std::vector<Cost>& costs = cost_[set[k]];
        const Cost ask = asks[k] * units_a_step_;
        Cost least = kLargestCost;
        for (std::int64_t here = ranges[k].least; here <= ranges[k].most && costs[here] < kLargestCost; ++here) {
            const Cost cost = costs[here] - ask * here;
            if (cost >= least) continue;
            least = cost;
            split.steps[k] = here;
        }
        if (least == kLargestCost) return {kLargestCost, std::vector<std::int64_t>(set.size(), 0)};
        split.cost += least;
    }
    return split;
}

FeederTable::Split FeederTable::cheapest_split(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                               std::span<const Range> ranges, bool all_units) const {
    if (!all_units || set.empty()) {
        Split split = each_by_itself(set, asks, ranges);
        const std::int64_t sum = std::accumulate(split.steps.begin(), split.steps.end(), std::int64_t{0});
        const bool fits = all_units ? sum == steps_ : sum <= steps_;
        if (fits || (split.cost == kLargestCost && !set.empty())) return split;
    }
    return shared_out(set, asks, ranges, all_units);
}

/// By tables of the least cost of so many steps at the first sites of the set, one site after another.
FeederTable::Split FeederTable::shared_out(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                           std::span<const Range> ranges, bool all_units) const {
    const std::size_t width = static_cast<std::size_t>(steps_) + 1;
    thread_local std::vector<Cost> least;          // By position, by steps; before the first site nothing is served.
    thread_local std::vector<std::int32_t> taken;  // The same: steps of the last site among them.
    least.assign((set.size() + 1) * width, kLargestCost);
    taken.assign((set.size() + 1) * width, 0);
    least[0] = 0;
    for (std::size_t k = 0; k < set.size(); ++k) {
        const std::vector<Cost>& costs = cost_[set[k]];
        const Cost ask = asks[k] * units_a_step_;
        const Cost* before = least.data() + k * width;
        Cost* after = least.data() + (k + 1) * width;
        std::int32_t* steps = taken.data() + (k + 1) * width;
        const std::size_t first_total = all_units && k + 1 == set.size() ? width - 1 : 0;
        for (auto here = static_cast<std::size_t>(ranges[k].least);
             here <= static_cast<std::size_t>(ranges[k].most) && costs[here] < kLargestCost; ++here) {
            const Cost own = costs[here] - ask * static_cast<Cost>(here);
            for (std::size_t total = std::max(here, first_total); total < width; ++total) {
                const Cost so_far = before[total - here];
                if (so_far == kLargestCost || so_far + own >= after[total]) continue;
                after[total] = so_far + own;
                steps[total] = static_cast<std::int32_t>(here);
            }
        }
    }
    const Cost* last = least.data() + set.size() * width;
    const Cost* total = all_units ? last + width - 1 : std::min_element(last, last + width);
    Split split{*total, std::vector<std::int64_t>(set.size(), 0)};
    if (split.cost == kLargestCost) return split;
    for (std::size_t k = set.size(), at = static_cast<std::size_t>(total - last); k-- > 0;) {
        split.steps[k] = taken[(k + 1) * width + at];
        at -= static_cast<std::size_t>(split.steps[k]);
    }
    return split;
}

}  // namespace spadework::graph::two_level
