#include "strands/strand_study.hpp"

#include <algorithm>

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

CableSizeOption option_for(const Scenario& scenario, int product, const StrandStudy& study,
                           const GrowthByYear& growth) {
    const CableProduct& cable = scenario.catalogue.cables[static_cast<std::size_t>(product)];
    CableSizeOption option;
    option.product = product;
    option.price_per_metre = cable.price_per_metre;
    option.spare_strands = cable.strands - study.need.in_use;
    option.headroom_percent =
        study.need.in_use > 0 ? 100.0 * option.spare_strands / static_cast<double>(study.need.in_use) : 0.0;
    option.chance_enough = chance_at_most(study.growth_distribution, option.spare_strands);
    option.meets_policy = cable.strands >= study.need.total();
    option.price_now = price_of_trunk(scenario, study.run, cable, study.need.in_use);
    option.duct_now = price_of_spare_duct(study.run);
    option.later = later_trunks(scenario, study.run, growth, option.spare_strands, 0);
    option.later_with_duct = later_trunks(scenario, study.run, growth, option.spare_strands, 1);
    return option;
}

/// The cheapest size that meets the policy; among equals the one with more strands.
int cheapest_that_meets_policy(const std::vector<CableSizeOption>& sizes) {
    int best = -1;
    for (int i = 0; i < static_cast<int>(sizes.size()); ++i) {
        const CableSizeOption& size = sizes[static_cast<std::size_t>(i)];
        if (!size.meets_policy) continue;
        if (best < 0 || size.best_sum() <= sizes[static_cast<std::size_t>(best)].best_sum()) best = i;
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
    const char* measure = study.any_growth() ? " by what it costs now and is expected to cost later" : "";
    return fmt::format("{}; {} is the cheapest cable that holds them{}, and leaves {} strands beyond those in use", sum,
                       cable.id, measure, chosen.spare_strands);
}

}  // namespace

StrandStudy study_strands(const Scenario& scenario, const TrunkRun& run) {
    StrandStudy study;
    study.run = run;
    study.buildings = strands_by_building(scenario);
    int in_use = 0;
    for (const BuildingStrands& building : study.buildings)
        in_use += building.strands;
    study.need = trunk_need(in_use, scenario.rules, scenario.growth);
    const GrowthByYear growth(scenario);
    study.growth_distribution = growth.at_horizon();
    study.named_growth_distribution = named_growth(scenario, scenario.growth.horizon_years);
    const auto& cables = scenario.catalogue.cables;
    for (int i = 0; i < static_cast<int>(cables.size()); ++i)
        study.sizes.push_back(option_for(scenario, i, study, growth));
    study.recommended = cheapest_that_meets_policy(study.sizes);
    study.reason = reason_for(scenario, study);
    return study;
}

StrandStudy study_strands(const Scenario& scenario) {
    return study_strands(scenario, metre_of_trunk(scenario));
}

}  // namespace spadework
