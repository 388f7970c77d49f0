#include "doubt/plan_pool.hpp"

#include <algorithm>
#include <utility>

#include "doubt/reused_plans.hpp"
#include "layout/rerouting.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

void PlanPool::add(const Scenario& scenario, const Plan& plan) {
    Known added{PricedPlan(scenario, plan), lengths_vary_ ? routes_of(plan) : RoutedLayout(), plan.strand_use};
    const bool is_known = std::any_of(plans_.begin(), plans_.end(), [&](const Known& known) {
        if (!lengths_vary_) return known.quantities == added.quantities;
        return known.strand_use == added.strand_use && same_routes(known.routes, added.routes);
    });
    if (!is_known) plans_.push_back(std::move(added));
}

std::int64_t PlanPool::total(std::size_t plan, const Scenario& scenario) const {
    const Known& known = plans_[plan];
    if (!lengths_vary_) return known.quantities.total(scenario).minor();
    const bool settled = !scenario.rules.either_strand_use;
    const std::optional<Money> total =
        total_of_routes(settled ? scenario : settled_on(scenario, known.strand_use), known.routes);
    return total ? total->minor() : no_plan;
}

PlanPool::Cheapest PlanPool::cheapest(const Scenario& scenario, std::optional<std::int64_t> of_first) const {
    Cheapest best;
    for (std::size_t plan = 0; plan < plans_.size(); ++plan) {
        const std::int64_t its_total = plan == 0 && of_first ? *of_first : total(plan, scenario);
        if (its_total == no_plan || (best.total != no_plan && its_total >= best.total)) continue;
        best = {plan, its_total};
    }
    return best;
}

void PlanPool::keep(const std::vector<bool>& wanted) {
    std::vector<Known> kept;
    for (std::size_t plan = 0; plan < plans_.size(); ++plan) {
        if (wanted[plan]) kept.push_back(std::move(plans_[plan]));
    }
    plans_ = std::move(kept);
}

}  // namespace spadework
