#include "checks/checks.hpp"
#include "rates/link_loss.hpp"

namespace spadework {

namespace {

DirectionLoss direction(const OpticalFigures& figures, const GlassPath& path, const LossRules& loss,
                        double attenuator_db) {
    DirectionLoss result;
    result.wavelength_nm = figures.wavelength_nm;
    result.loss_db = greatest_loss_db(path, figures.wavelength_nm, loss) + attenuator_db;
    result.limit_db = loss_limit_db(figures);
    result.margin_db = result.limit_db - result.loss_db;
    result.attenuator_db = attenuator_db;
    result.least_loss_db = least_loss_db(path, figures.wavelength_nm, loss) + attenuator_db;
    result.overload_excess_db = overload_excess_db(figures, result.least_loss_db);
    return result;
}

}  // namespace

LinkBudget link_budget(const Scenario& scenario, const PlannedLink& link) {
    const OpticProduct& optic = scenario.catalogue.optics[static_cast<std::size_t>(link.optic)];
    const GlassPath path{link.glass, link.mated_pairs, link.splices};
    LinkBudget budget;
    const Attenuation attenuation =
        attenuation_of(scenario.catalogue, optic, link.attenuator_at_start, link.attenuator_at_end);
    budget.to_building = direction(optic.to_building, path, scenario.rules.loss, attenuation.to_building_db);
    budget.to_hub = direction(optic.to_hub, path, scenario.rules.loss, attenuation.to_hub_db);
    budget.longest_glass = longest_glass(optic, path, scenario.rules.loss);
    return budget;
}

std::vector<LinkBudget> link_budgets(const Scenario& scenario, const Plan& plan) {
    std::vector<LinkBudget> budgets;
    for (std::size_t i = 0; i < plan.links.size(); ++i) {
        budgets.push_back(link_budget(scenario, plan.links[i]));
        budgets.back().link = static_cast<int>(i);
    }
    return budgets;
}

}  // namespace spadework
