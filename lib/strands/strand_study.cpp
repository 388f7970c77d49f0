#include "strands/strand_study.hpp"

#include <algorithm>
#include <numeric>

#include <fmt/format.h>

namespace spadework {

namespace {

std::vector<BuildingStrands> strands_by_building(const Scenario& scenario) {
    std::vector<BuildingStrands> list;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const Building& building = scenario.buildings[b];
        list.push_back({static_cast<BuildingIndex>(b), link_count(building), strands_in_use(building, scenario.rules)});
    }
    return list;
}

/// Chance of each number of strands that the named buildings due within the horizon will need.
std::vector<double> named_growth(const Scenario& scenario) {
    std::vector<double> chances;
    std::vector<int> sizes;
    for (const FutureBuilding& building : scenario.growth.buildings) {
        if (building.year > scenario.growth.horizon_years) continue;
        chances.push_back(building.chance);
        sizes.push_back(building.links * strands_per_link(scenario.rules.strand_use));
    }
    return weighted_poisson_binomial(chances, sizes);
}

double chance_at_most(const std::vector<double>& distribution, int strands) {
    if (strands < 0) return 0.0;
    const auto count = std::min(distribution.size(), static_cast<std::size_t>(strands) + 1);
    return std::min(
        1.0, std::accumulate(distribution.begin(), distribution.begin() + static_cast<std::ptrdiff_t>(count), 0.0));
}

CableSizeOption option_for(const CableProduct& cable, int product, const StrandStudy& study) {
    CableSizeOption option;
    option.product = product;
    option.price_per_metre = cable.price_per_metre;
    option.spare_strands = cable.strands - study.need.in_use;
    option.headroom_percent =
        study.need.in_use > 0 ? 100.0 * option.spare_strands / static_cast<double>(study.need.in_use) : 0.0;
    option.chance_enough = chance_at_most(study.growth_distribution, option.spare_strands);
    option.meets_policy = cable.strands >= study.need.total();
    return option;
}

/// The cheapest size that meets the policy; among equals the one with more strands.
int cheapest_that_meets_policy(const std::vector<CableSizeOption>& sizes) {
    int best = -1;
    for (int i = 0; i < static_cast<int>(sizes.size()); ++i) {
        const CableSizeOption& size = sizes[static_cast<std::size_t>(i)];
        if (!size.meets_policy) continue;
        if (best < 0 || size.price_per_metre <= sizes[static_cast<std::size_t>(best)].price_per_metre) best = i;
    }
    return best;
}

std::string reason_for(const Scenario& scenario, const StrandStudy& study) {
    const StrandNeed& need = study.need;
    const std::string sum = fmt::format("{} strands in use, {} spare by policy and {} for growth make {}", need.in_use,
                                        need.spare, need.headroom, need.total());
    if (study.recommended < 0) {
        return sum +
               "; no single cable in the catalogue holds them, so the trunk takes several cables or several "
               "enclosures share the buildings";
    }
    const CableSizeOption& chosen = study.sizes[static_cast<std::size_t>(study.recommended)];
    const CableProduct& cable = scenario.catalogue.cables[static_cast<std::size_t>(chosen.product)];
    return fmt::format("{}; {} is the cheapest cable that holds them, and leaves {} strands beyond those in use", sum,
                       cable.id, chosen.spare_strands);
}

}  // namespace

std::vector<double> weighted_poisson_binomial(const std::vector<double>& chances, const std::vector<int>& sizes) {
    std::vector<double> distribution = {1.0};
    for (std::size_t i = 0; i < chances.size(); ++i) {
        const auto size = static_cast<std::size_t>(std::max(0, sizes[i]));
        std::vector<double> next(distribution.size() + size, 0.0);
        for (std::size_t k = 0; k < distribution.size(); ++k) {
            next[k] += distribution[k] * (1.0 - chances[i]);
            next[k + size] += distribution[k] * chances[i];
        }
        distribution = std::move(next);
    }
    return distribution;
}

StrandStudy study_strands(const Scenario& scenario) {
    StrandStudy study;
    study.buildings = strands_by_building(scenario);
    int in_use = 0;
    for (const BuildingStrands& building : study.buildings)
        in_use += building.strands;
    study.need = trunk_need(in_use, scenario.rules, scenario.growth);
    study.growth_distribution = named_growth(scenario);
    const auto& cables = scenario.catalogue.cables;
    for (int i = 0; i < static_cast<int>(cables.size()); ++i) {
        study.sizes.push_back(option_for(cables[static_cast<std::size_t>(i)], i, study));
    }
    study.recommended = cheapest_that_meets_policy(study.sizes);
    study.reason = reason_for(scenario, study);
    return study;
}

}  // namespace spadework
