#include <map>

#include "costing/line.hpp"
#include "costing/lines.hpp"
#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

/// Work and ducts along a cable's steps.
struct AlongTheWay {
    double pulling_hours = 0;
    std::map<UnitPrice, Length> duct;  ///< New duct by its price a metre.
};

AlongTheWay along(const Scenario& scenario, const PlannedCable& cable) {
    AlongTheWay sums;
    for (const Step& step : cable.steps) {
        const Length length = scenario.segments[static_cast<std::size_t>(step.segment)].length;
        const OpeningMethod& method = *ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)].method;
        sums.pulling_hours += length.metres() * method.pull_hours_per_metre;
        if (method.duct_per_metre > UnitPrice()) sums.duct[method.duct_per_metre] += length;
    }
    return sums;
}

void add_ends(const Scenario& scenario, const PlannedCable& cable, const Cause& cause, std::vector<CostLine>& lines) {
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
    const EndWork end = end_work(product, cable.need.in_use, scenario);
    const bool factory = scenario.rules.termination == Termination::factory;
    const std::string material = factory ? "factory-made end, " + product.id : "pigtail";
    const std::string work = factory ? "plug and label strands" : "splice strands";
    const Trade trade = factory ? Trade::installer : Trade::splicer;
    CostLine ends = line_of_pieces(Category::terminations, material, 2, UnitPrice::from_money(end.material), cause);
    if (!factory) {
        ends.quantity = 2.0 * cable.need.in_use;
        ends.unit_price = scenario.catalogue.splicing.pigtail_price;
    }
    add_unless_empty(std::move(ends), lines);
    add_unless_empty(line_of_work(Category::terminations, work, {end.time * 2, end.rate, trade}, cause), lines);
    if (cable.lengths.joints == 0) return;
    const EndWork joint = joint_work(product, scenario);
    add_unless_empty(line_of_work(Category::terminations, "joint cable",
                                  {joint.time * cable.lengths.joints, joint.rate, Trade::splicer}, cause),
                     lines);
}

void add_cable(const Scenario& scenario, const PlannedCable& cable, std::vector<CostLine>& lines) {
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
    const Cause cause{CauseKind::cable, cable.id};
    const AlongTheWay sums = along(scenario, cable);
    lines.push_back(line_of_length(Category::cable, product.id, cable.lengths.ordered, product.price_per_metre, cause,
                                   scenario.feet));
    add_unless_empty(
        line_of_work(Category::cable, "pull cable",
                     {WorkTime::from_hours(sums.pulling_hours), scenario.labour.installer_rate, Trade::installer},
                     cause),
        lines);
    for (const auto& [price, length] : sums.duct) {
        lines.push_back(line_of_length(Category::ducts, "duct", length, price, cause, scenario.feet));
    }
    add_ends(scenario, cable, cause, lines);
}

}  // namespace

void add_cable_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines) {
    for (const PlannedCable& cable : plan.cables)
        add_cable(scenario, cable, lines);
}

}  // namespace spadework
