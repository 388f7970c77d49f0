#include "growth/spare_ducts.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "costing/line.hpp"
#include "costing/lines.hpp"
#include "growth/planned_trunk.hpp"

namespace spadework {

namespace {

void add_spare_duct(const Scenario& scenario, const Plan& plan, std::size_t enclosure, Bill& bill) {
    const auto run = run_to_enclosure(scenario, plan, enclosure);
    if (!run) return;
    std::map<UnitPrice, Length> duct;
    for (const TrunkStretch& stretch : run->stretches) {
        if (stretch.dug_now) duct[stretch.duct_per_metre] += stretch.length;
    }
    const int trunk = plan.enclosures[enclosure].trunks.front();
    const Cause cause{CauseKind::cable, plan.cables[static_cast<std::size_t>(trunk)].id};
    for (const auto& [price, length] : duct) {
        add_unless_empty(line_of_length(Category::ducts, "spare duct", length, price, cause, scenario.feet),
                         bill.lines);
    }
}

}  // namespace

Bill price_with_spare_ducts(const Scenario& scenario, const Plan& plan, const std::vector<TrunkChoice>& choices) {
    Bill bill = price(scenario, plan);
    const bool any = std::any_of(choices.begin(), choices.end(), [](const auto& choice) { return choice.spare_duct; });
    if (!any) return bill;
    std::erase_if(bill.lines, [](const CostLine& line) {
        return line.category == Category::contingency || line.category == Category::tax;
    });
    for (std::size_t e = 0; e < choices.size(); ++e) {
        if (choices[e].spare_duct) add_spare_duct(scenario, plan, e, bill);
    }
    std::stable_sort(bill.lines.begin(), bill.lines.end(), [](const CostLine& a, const CostLine& b) {
        return std::tie(a.category, a.cause, a.cause_id) < std::tie(b.category, b.cause, b.cause_id);
    });
    add_quote_lines(scenario, bill.total(), bill.lines);
    return bill;
}

}  // namespace spadework
