#include "graph/two_level_single.hpp"

#include <algorithm>

#include "graph/saturating.hpp"
#include "graph/two_level_solver.hpp"

namespace spadework::graph::two_level {

namespace {

std::int64_t all_units(const TwoLevelProblem& problem) {
    WideCost units = 0;
    for (const TwoLevelDemand& d : problem.demands)
        units += d.units;
    return saturated(units);
}

Cost least_extra(const Site& site, const std::vector<std::int32_t>& sizes) {
    Cost least = kLargestCost;
    for (const std::int32_t size : sizes)
        least = std::min(least, feeder_extra(site, size));
    return least;
}

}  // namespace

bool is_single(const TwoLevelProblem& problem) {
    return problem.most_sites == 1 && !problem.demands.empty() &&
           std::none_of(problem.demands.begin(), problem.demands.end(),
                        [](const TwoLevelDemand& d) { return d.direct.has_value(); });
}

std::optional<SharedCostProblem> single_root(const TwoLevelProblem& problem) {
    const std::int64_t units = all_units(problem);
    Feeder least{0, 0, {kLargestCost, kLargestCost}, kLargestCost};
    std::vector<std::int32_t> large_enough;
    for (const Feeder& f : usable_feeders(problem)) {
        if (f.serves < units) continue;
        least.charge.weight = std::min(least.charge.weight, f.charge.weight);
        least.charge.multiplicity = std::min(least.charge.multiplicity, f.charge.multiplicity);
        least.fixed = std::min(least.fixed, f.fixed);
        large_enough.push_back(f.size);
    }
    if (large_enough.empty()) return std::nullopt;
    SharedCostProblem single{problem.vertex_count, problem.edges, {}, {}};
    for (const TwoLevelDemand& d : problem.demands)
        single.demands.push_back({d.at, d.weight, d.multiplicity});
    single.demands.push_back({problem.source, least.charge.weight, least.charge.multiplicity});
    for (const Site& s : problem.sites)
        single.roots.push_back({s.at, s.cost + least.fixed + least_extra(s, large_enough)});
    return single;
}

std::optional<TwoLevelPlan> plan_from(const TwoLevelProblem& problem, const SharedCostPlan& single) {
    TwoLevelPlan plan;
    std::vector<EdgeId> feeder = single.paths.back();
    std::reverse(feeder.begin(), feeder.end());
    Length length = 0;
    Cost passage = 0;
    for (const EdgeId e : feeder) {
        length += problem.edges[e].length;
        passage += problem.edges[e].passage;
    }
    const std::vector<Feeder> feeders = usable_feeders(problem);
    const Feeder* best = cheapest_feeder(feeders, problem.sites[single.root], all_units(problem), length, passage);
    if (best == nullptr) return std::nullopt;
    plan.open.push_back({single.root, best->size, std::move(feeder)});
    plan.served_by.assign(problem.demands.size(), 0);
    plan.paths.assign(single.paths.begin(), single.paths.end() - 1);
    const auto value = cost_of(problem, plan);
    if (!value) return std::nullopt;
    plan.value = *value;
    return plan;
}

}  // namespace spadework::graph::two_level
